/* What may stand in runs, outlets and inlets apart from pieces; settings, which also stand in jobs and shops.  In the
 * order of the manual. */
#include "model/build.h"
#include "model/words.h"

static const struct row rows[] = {
    {
        .form =
            {
                .word = "room",
                .places = IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "the room"},
                    },
                .meaning = "the room it serves",
                .example = "room \"Glaze room\"",
            },
        .take = take_text,
        .offset = offsetof(struct run, room),
    },

    {
        .form =
            {
                .word = "airflow",
                .places = IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_FLOW,
                         .meaning = "the airflow"},
                    },
                .meaning = "its airflow; an outlet needs this or a load, an inlet takes its share of what is left",
                .example = "airflow 140 cfm",
            },
        .take = take_airflow,
        .range = &range_airflow,
    },

    {
        .form =
            {
                .word = "load",
                .places = IN_OUTLET,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_POWER,
                         .meaning = "the sensible load"},
                    },
                .meaning = "the sensible load of the room, which gives the airflow",
                .example = "load 3100 btu/h",
            },
        .take = take_load,
        .range = &range_power,
    },

    {
        .form =
            {
                .word = "shape",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_CHOICE, .use = SLOT_REQUIRED, .choices = shape_choices, .meaning = "the shape"},
                    },
                .meaning = "shape of the duct",
                .example = "shape round",
            },
        .take = take_shape,
        .setting = true,
    },

    {
        .form =
            {
                .word = "size",
                .places = IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "the size"},
                    },
                .meaning = "size of the run's duct, instead of the one that sizing would choose",
                .example = "size 14 x 8",
                .metric_example = "size 350 x 200",
            },
        .take = take_size,
        .setting = true,
    },

    {
        .form =
            {
                .word = "limit",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        [LIMIT_HEIGHT] = {.kind = SLOT_QUANTITY,
                                          .key = "height",
                                          .measure = MEASURE_LENGTH,
                                          .meaning = "the greatest height"},
                        [LIMIT_WIDTH] = {.kind = SLOT_QUANTITY,
                                         .key = "width",
                                         .measure = MEASURE_LENGTH,
                                         .meaning = "the greatest width"},
                        [LIMIT_VELOCITY] = {.kind = SLOT_QUANTITY,
                                            .key = "velocity",
                                            .measure = MEASURE_VELOCITY,
                                            .meaning = "the greatest velocity"},
                    },
                .meaning = "what sizing must stay within",
                .example = "limit height 8 in",
            },
        .take = take_limit,
        .repeats = true,
        .setting = true,
    },

    {
        .form =
            {
                .word = "material",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_CHOICE,
                         .use = SLOT_REQUIRED,
                         .choices = material_choices,
                         .meaning = "the material"},
                    },
                .meaning = "what the duct is made of; galvanised when left out",
                .example = "material galvanised",
            },
        .take = take_material,
        .setting = true,
    },

    {
        .form =
            {
                .word = "gauge",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "the gauge"},
                    },
                .meaning = "thickness of the sheet, instead of the one that the tables give",
                .example = "gauge 26",
            },
        .take = take_gauge,
        .setting = true,
    },

    {
        .form =
            {
                .word = "insulation",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_RESISTANCE,
                         .meaning = "the R-value"},
                    },
                .meaning = "insulation outside the duct; none when left out",
                .example = "insulation R-8",
            },
        .take = take_insulation,
        .setting = true,
    },

    {
        .form =
            {
                .word = "lining",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_LENGTH,
                         .meaning = "how thick it is"},
                    },
                .meaning = "lining inside the duct; none when left out",
                .example = "lining 1 in",
            },
        .take = take_lining,
        .setting = true,
    },

    {
        .form =
            {
                .word = "seal",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_CHOICE,
                         .use = SLOT_REQUIRED,
                         .choices = seal_choices,
                         .meaning = "the seal class"},
                    },
                .meaning = "seal class of the joints",
                .example = "seal A",
            },
        .take = take_seal,
        .setting = true,
    },

    {
        .form =
            {
                .word = "pressure-class",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_PRESSURE,
                         .meaning = "the static pressure"},
                    },
                .meaning =
                    "static pressure that the duct is built for; the highest of the blower's points when left out",
                .example = "pressure-class 1 in.wg",
            },
        .take = take_number,
        .setting = true,
        .offset = offsetof(struct settings, pressure_class),
        .range = &range_pressure_class,
    },

    {
        .form =
            {
                .word = "seam",
                .places = IN_JOB | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_CHOICE, .use = SLOT_REQUIRED, .choices = seam_words, .meaning = "which seam"},
                    },
                .meaning = "the lengthwise seam to use",
                .example = "seam pittsburgh",
            },
        .take = take_seam,
        .setting = true,
    },

    {
        .form =
            {
                .word = "joint",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_CHOICE, .use = SLOT_REQUIRED, .choices = joint_words, .meaning = "which joint"},
                    },
                .meaning = "the joint between pieces to use",
                .example = "joint slip-and-drive",
            },
        .take = take_joint,
        .setting = true,
    },

    {
        .form =
            {
                .word = "place",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        [PLACE_LOCATION] = {.kind = SLOT_CHOICE,
                                            .use = SLOT_REQUIRED,
                                            .choices = location_choices,
                                            .meaning = "the kind of space"},
                        [PLACE_TEMPERATURE] =
                            {.kind = SLOT_QUANTITY,
                             .measure = MEASURE_TEMPERATURE,
                             .meaning = "its design temperature in summer"},
                        [PLACE_WINTER] = {.kind = SLOT_QUANTITY,
                                          .key = "winter",
                                          .measure = MEASURE_TEMPERATURE,
                                          .meaning = "its design temperature in winter"},
                        [PLACE_HUMIDITY] = {.kind = SLOT_QUANTITY,
                                            .key = "humidity",
                                            .measure = MEASURE_PERCENT,
                                            .meaning = "the relative humidity there in summer"},
                        [PLACE_DEW_POINT] = {.kind = SLOT_QUANTITY,
                                             .key = "dew-point",
                                             .measure = MEASURE_TEMPERATURE,
                                             .meaning = "the dew point there in summer"},
                        [PLACE_MINIMUM] =
                            {.kind = SLOT_QUANTITY,
                             .key = "minimum",
                             .measure = MEASURE_RESISTANCE,
                             .meaning = "the R-value that duct there is to have at least"},
                        [PLACE_HEIGHT] = {.kind = SLOT_QUANTITY,
                                          .key = "up",
                                          .measure = MEASURE_LENGTH,
                                          .meaning = "how high above the floor one works"},
                    },
                .meaning = "where the duct runs; conditioned when left out",
                .example = "place attic 130 F",
            },
        .take = take_place,
        .setting = true,
    },

    {
        .form =
            {
                .word = "clearance",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_LENGTH,
                         .meaning = "the least distance"},
                    },
                .meaning = "what the outside of the duct keeps from obstacles and other runs; it may touch them when "
                           "left out",
                .example = "clearance 1 in",
            },
        .take = take_clearance,
        .setting = true,
    },

    {
        .form =
            {
                .word = "headroom",
                .places = IN_JOB | IN_SHOP | IN_RUN | IN_OUTLET | IN_INLET,
                .slots =
                    {
                        [HEADROOM_HEIGHT] = {.kind = SLOT_QUANTITY,
                                             .use = SLOT_REQUIRED,
                                             .measure = MEASURE_LENGTH,
                                             .meaning = "the height"},
                        [HEADROOM_OVER] =
                            {.kind = SLOT_QUANTITY,
                             .key = "over",
                             .measure = MEASURE_LENGTH,
                             .meaning = "the level of the floor"},
                    },
                .meaning = "the height that stays free under the duct, over a floor at level 0 or at another; 0 asks "
                           "for none",
                .example = "headroom 6 ft 8 in",
            },
        .take = take_headroom,
        .setting = true,
    },
};

const struct row_list rows_settings = {.at = rows, .count = sizeof rows / sizeof rows[0]};
