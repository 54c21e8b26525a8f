/* What may stand in a unit block.  In the order of the manual. */
#include "model/build.h"
#include "model/directions.h"

static const struct row rows[] = {
    {
        .form =
            {
                .word = "airflow",
                .places = IN_UNIT,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_FLOW,
                         .meaning = "the design airflow"},
                    },
                .meaning = "the design airflow; the sum of its outlets when left out",
                .example = "airflow 1200 cfm",
            },
        .take = take_unit_airflow,
        .range = &range_airflow,
    },

    {
        .form =
            {
                .word = "cooling",
                .places = IN_UNIT,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_POWER,
                         .meaning = "the cooling capacity"},
                    },
                .meaning = "nominal cooling capacity",
                .example = "cooling 3 ton",
            },
        .take = take_number,
        .offset = offsetof(struct air_unit, cooling),
        .at_offset = offsetof(struct air_unit, cooling_at),
        .range = &range_power,
    },

    {
        .form =
            {
                .word = "heating",
                .places = IN_UNIT,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_POWER,
                         .meaning = "the heating capacity"},
                    },
                .meaning = "nominal heating capacity",
                .example = "heating 40000 btu/h",
            },
        .take = take_number,
        .offset = offsetof(struct air_unit, heating),
        .range = &range_power,
    },

    {
        .form =
            {
                .word = "blower",
                .places = IN_UNIT,
                .slots =
                    {
                        [BLOWER_SPEED] = {.kind = SLOT_TEXT, .meaning = "the speed, in quotes, where it has several"},
                        [BLOWER_POINTS] = {.kind = SLOT_PAIR,
                                           .use = SLOT_REQUIRED_LIST,
                                           .meaning = "points of its curve, airflow at pressure"},
                    },
                .meaning = "points of the blower curve: airflow at external static pressure; one line for each speed",
                .example = "blower 1320 cfm at 0.30 in.wg, 1200 cfm at 0.50 in.wg",
            },
        .take = take_blower,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "speed",
                .places = IN_UNIT,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "the name of one of its blower lines"},
                    },
                .meaning = "the blower speed it runs at; when left out, the least that meets the budget",
                .example = "speed \"medium\"",
            },
        .take = take_speed,
    },

    {
        .form =
            {
                .word = "drop",
                .places = IN_UNIT,
                .slots =
                    {
                        [DROP_LABEL] = {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "what takes the pressure"},
                        [DROP_PRESSURE] = {.kind = SLOT_QUANTITY,
                                           .use = SLOT_REQUIRED,
                                           .measure = MEASURE_PRESSURE,
                                           .meaning = "how much"},
                        [DROP_FLOW] = {.kind = SLOT_QUANTITY,
                                       .key = "at",
                                       .measure = MEASURE_FLOW,
                                       .meaning = "the airflow that was measured at"},
                        [DROP_LOADED] = {.kind = SLOT_QUANTITY,
                                         .key = "loaded",
                                         .measure = MEASURE_PRESSURE,
                                         .meaning = "what a filter takes when it is full of dust"},
                    },
                .meaning =
                    "pressure that a part of the unit takes; scaled to the design airflow when the airflow is given",
                .example = "drop \"cooling coil, wet\" 0.22 in.wg",
            },
        .take = take_unit_drop,
        .repeats = true,
        .range = &range_pressure,
    },

    {
        .form =
            {
                .word = "supply",
                .places = IN_UNIT,
                .slots =
                    {
                        {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "its size"},
                    },
                .meaning = "size of the supply collar; sized like any duct when left out",
                .example = "supply 18 x 14",
                .metric_example = "supply 450 x 350",
            },
        .take = take_collar,
    },

    {
        .form =
            {
                .word = "return",
                .places = IN_UNIT,
                .slots =
                    {
                        [COLLAR_SIZE] = {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "its size"},
                        [COLLAR_AT] = {.kind = SLOT_POINT, .key = "at", .meaning = "where it is"},
                        [COLLAR_FACES] = {.kind = SLOT_CHOICE,
                                          .key = "faces",
                                          .choices = compass_words,
                                          .meaning = "which way its duct leaves"},
                    },
                .meaning =
                    "size of the return collar, sized like any duct when left out; where it is and which way its "
                    "duct leaves, opposite the supply when left out",
                .example = "return 20 x 14",
                .metric_example = "return 500 x 350",
            },
        .take = take_collar,
    },

    {
        .form =
            {
                .word = "at",
                .places = IN_UNIT,
                .slots =
                    {
                        {.kind = SLOT_POINT, .use = SLOT_REQUIRED, .meaning = "where it is"},
                    },
                .meaning = "where the middle of the supply collar is: so far east, north and up",
                .example = "at 0 ft, 0 ft, 2 ft",
            },
        .take = take_position,
    },

    {
        .form =
            {
                .word = "faces",
                .places = IN_UNIT,
                .slots =
                    {
                        [FACES_WAY] = {.kind = SLOT_CHOICE,
                                       .use = SLOT_REQUIRED,
                                       .choices = compass_words,
                                       .meaning = "the direction"},
                        [FACES_FRONT] =
                            {.kind = SLOT_CHOICE,
                             .key = "front",
                             .choices = level_words,
                             .meaning = "of one that faces up or down, where one stands to look at its "
                                        "front"},
                    },
                .meaning = "which way air leaves the supply collar: by the compass, up or down; and the side that its "
                           "front is on, west when it says nothing",
                .example = "faces up, front south",
            },
        .take = take_faces,
    },

    {
        .form =
            {
                .word = "leaves",
                .places = IN_UNIT,
                .slots =
                    {
                        [SEASON_COOLING] = {.kind = SLOT_QUANTITY,
                                            .measure = MEASURE_TEMPERATURE,
                                            .meaning = "the supply air when it cools"},
                        [SEASON_HEATING] = {.kind = SLOT_QUANTITY,
                                            .key = "heating",
                                            .measure = MEASURE_TEMPERATURE,
                                            .meaning = "the supply air when it heats"},
                    },
                .meaning =
                    "temperature of the supply air, for an airflow from a load and for what the ducts gain or lose",
                .example = "leaves 55 F, heating 105 F",
            },
        .take = take_leaves,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "room",
                .places = IN_UNIT,
                .slots =
                    {
                        [SEASON_COOLING] = {.kind = SLOT_QUANTITY,
                                            .measure = MEASURE_TEMPERATURE,
                                            .meaning = "the room air in summer"},
                        [SEASON_HEATING] = {.kind = SLOT_QUANTITY,
                                            .key = "heating",
                                            .measure = MEASURE_TEMPERATURE,
                                            .meaning = "the room air in winter"},
                    },
                .meaning = "temperature of the rooms, likewise",
                .example = "room 75 F, heating 70 F",
            },
        .take = take_room_air,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "leakage",
                .places = IN_UNIT,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_PERCENT,
                         .meaning = "the share of its airflow"},
                    },
                .meaning = "the share of its airflow that its ducts may leak; 5 % when left out",
                .example = "leakage 4 %",
            },
        .take = take_number,
        .offset = offsetof(struct air_unit, leakage_limit),
        .range = &range_leakage,
    },
};

const struct row_list rows_unit = {.at = rows, .count = sizeof rows / sizeof rows[0]};
