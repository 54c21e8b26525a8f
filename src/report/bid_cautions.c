/* Where the work can hurt someone or the law applies: said in place, and once more in one list. */
#include "report/bid.h"

static const struct {
    const char *about, *text;
    bool some_places; /* only where a run lies in `location` */
    enum location location;
} cautions[CAUTION_COUNT] = {
    [CAUTION_EDGES] =
        {
            .about = "Sheet metal",
            .text = "Sheared metal cuts, and brakes, shears and rollers pinch and crush: wear gloves, sleeves and eye "
                    "protection, and keep hands clear of what moves.",
        },
    /* 85 dBA averaged over 8 hours: 29 CFR 1910.95, read. */
    [CAUTION_NOISE] =
        {
            .about = "Noise",
            .text = "Hammers, shears and rollers are loud: protect hearing from 85 dBA averaged over the day, the "
                    "action level of OSHA 29 CFR 1910.95.",
        },
    [CAUTION_HEIGHT] =
        {
            .about = "Ladders and ceilings",
            .text = "A ceiling between joists does not carry a person. Stand on joists or boards laid across them, and "
                    "set ladders on firm ground.",
        },
    [CAUTION_HEAT] =
        {
            .about = "Attic heat",
            .text =
                "An attic in the sun can bring heat stroke: limit the time in it, drink, and never work there alone.",
            .some_places = true,
            .location = LOCATION_ATTIC,
        },
    /* Common practice, no source. */
    [CAUTION_CRAWL] =
        {
            .about = "Crawl space",
            .text =
                "A crawl space is low and close: look first for live wiring, vermin, standing water and sharp ends, "
                "bring light and fresh air, and never work there alone.",
            .some_places = true,
            .location = LOCATION_CRAWL,
        },
    [CAUTION_POWER] =
        {
            .about = "Electricity",
            .text =
                "Disconnect and lock out the power before a unit is opened. Wiring is work for those licensed for it.",
        },
    [CAUTION_ASBESTOS] =
        {
            .about = "Asbestos",
            .text = "Old duct wrap, duct tape, and vermiculite fill may hold asbestos: stop, leave it undisturbed, and "
                    "have it tested before anyone goes on.",
        },
    [CAUTION_COMBUSTION] =
        {
            .about = "Appliances that burn fuel",
            .text = "A sealed house or a return that draws it down can pull flue gas back inside: a qualified person "
                    "must test combustion air, draft and carbon monoxide before the system is handed over.",
        },
    [CAUTION_RETURN] =
        {
            .about = "Where returns may not be",
            .text = "No return air is drawn from a garage, nor from beside an appliance that burns fuel.",
        },
    [CAUTION_FIRE] =
        {
            .about = "Fire and smoke",
            .text = "Rated walls, floors and shafts, plenum spaces, flues and other hot surfaces ask for the fire "
                    "dampers, rated materials, clearances and smoke detectors that the code prescribes.",
        },
    [CAUTION_REFRIGERANT] =
        {
            .about = "Refrigerant",
            .text = "Only certified persons open a refrigerant circuit.",
        },
    [CAUTION_FUMES] =
        {
            .about = "Zinc fumes",
            .text = "Galvanised metal that is welded, brazed or torched gives off zinc oxide fumes: take the zinc off "
                    "first, and ventilate.",
        },
    [CAUTION_STRUCTURE] =
        {
            .about = "Structure",
            .text =
                "No joist, truss, beam or stud is cut, drilled or notched unless whoever answers for the structure has "
                "approved it.",
        },
    /* Common practice, no source. */
    [CAUTION_DRILLING] =
        {
            .about = "Drilling into duct",
            .text =
                "Drill no hole where a coil, a drain pan, wiring or a refrigerant line may lie behind the sheet, and "
                "plug each test hole when it has been read.",
        },
};

const char *bid_caution_text(enum caution caution) {
    return cautions[caution].text;
}

void bid_caution(struct document *document, enum caution caution) {
    document_caution(document, bid_caution_text(caution));
}

static void find_places(const struct job *job, bool has_run_in[LOCATION_COUNT]) {
    for (size_t i = 0; i < job->runs.count; i++)
        has_run_in[job->runs.at[i]->settings.location] |= job->runs.at[i]->settings.location_set;
}

bool bid_place_cautions(const struct job *job, struct document *document) {
    bool has_run_in[LOCATION_COUNT] = {false}, any = false;
    find_places(job, has_run_in);
    for (enum caution i = 0; i < CAUTION_COUNT; i++)
        if (cautions[i].some_places && has_run_in[cautions[i].location]) {
            bid_caution(document, i);
            any = true;
        }
    return any;
}

void bid_cautions(const struct job *job, struct document *document) {
    bool has_run_in[LOCATION_COUNT] = {false};
    find_places(job, has_run_in);
    for (size_t i = 0; i < CAUTION_COUNT; i++)
        if (!cautions[i].some_places || has_run_in[cautions[i].location])
            document_fact(document, cautions[i].about, cautions[i].text);
    document_paragraph(document,
                       "Each of these gives way to local code, the authority having jurisdiction, the manufacturer's "
                       "instructions and licensed practice. The figures in this paper are an aid, to be reviewed by a "
                       "qualified person before work.");
}
