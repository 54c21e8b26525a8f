/* Sealant by the length that is brushed; tape and gaskets by the length that they go round. */
#include "cost/count.h"
#include "model/insulation.h"
#include "model/piece.h"

/* SOURCE_SEAL_CLASSES. */
static const double band_width = 2 * INCH, band_thickness = 0.020 * INCH;
static const double brushed = 0.5; /* of what is bought ends on the duct */

/* Round each end of a damper's rod: common practice, no source. */
static const double rod_band = 3 * INCH;

/* What there is of each kind to brush, m. */
struct sealing {
    double joints, seams, penetrations;
};

/* A flange has a gasket, an end of flexible duct its tape. */
static void seal_connection(struct sealing *sealing, const struct connection *connection) {
    bool all = connection->run->settings.seal == SEAL_A;
    double girth = size_perimeter(connection->size);
    switch (connection->closing) {
    case CLOSED_JOINT:
        sealing->joints += connection->kind == JOINT_FLANGE ? 0 : girth;
        break;
    case CLOSED_BASE:
    case CLOSED_NECK:
    case CLOSED_CANVAS:
        sealing->joints += girth;
        break;
    case CLOSED_FACE:
        sealing->penetrations += all ? girth : 0;
        break;
    case CLOSED_ROD:
        sealing->penetrations += all ? 2 * rod_band : 0;
        break;
    case CLOSED_FLEX:
    case CLOSED_READY:
        break;
    }
}

static struct sealing seal_job(const struct takeoff *takeoff, const struct metal *metal) {
    struct sealing sealing = {0};
    for (size_t i = 0; i < takeoff->connections.count; i++)
        seal_connection(&sealing, &takeoff->connections.at[i]);
    for (size_t p = 0; p < metal->parts.count; p++) {
        const struct part *part = metal->parts.at[p];
        if (part_is_within(part))
            continue;
        double seams = takeoff->measures[p].seams;
        for (size_t u = 0; u < part->uses.count; u++)
            if (part->uses.at[u].run->settings.seal >= SEAL_B)
                sealing.seams += seams;
    }
    return sealing;
}

double sealed_of(const struct connection *connection) {
    struct sealing sealing = {0};
    seal_connection(&sealing, connection);
    return sealing.joints + sealing.penetrations;
}

/* "2 in wide and 20 mil thick, 481 ft a gallon". */
static const char *band_words(const struct takeoff *takeoff, const struct job *job) {
    bool metric = job->system == MEASURE_METRIC;
    double can = metric ? LITRE : GALLON;
    return arena_format(takeoff->arena, "%s wide and %s thick, %s a %s", words_of_width(takeoff, job, band_width),
                        metric ? "0.5 mm" : "20 mil",
                        words_of_length(takeoff, job, can / (band_width * band_thickness)),
                        metric ? "litre" : "gallon");
}

/* "190 ft of joints, 221 ft of seams; ...". */
static const char *sealant_basis(const struct takeoff *takeoff, const struct job *job, const struct sealing *sealing) {
    const char *joints = words_of_length(takeoff, job, sealing->joints);
    const char *seams = words_of_length(takeoff, job, sealing->seams);
    const char *penetrations = words_of_length(takeoff, job, sealing->penetrations);
    return arena_format(
        takeoff->arena,
        "%s of joints%s%s%s%s%s%s, as the seal class of each run asks; a band %s; half lost in brushing", joints,
        sealing->seams > 0 ? ", " : "", sealing->seams > 0 ? seams : "", sealing->seams > 0 ? " of seams" : "",
        sealing->penetrations > 0 ? ", " : "", sealing->penetrations > 0 ? penetrations : "",
        sealing->penetrations > 0 ? " of penetrations" : "", band_words(takeoff, job));
}

void count_sealant(struct takeoff *takeoff, const struct job *job) {
    struct sealing sealing = seal_job(takeoff, job->metal);
    double length = sealing.joints + sealing.seams + sealing.penetrations;
    if (!(length > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = length * band_width * band_thickness;
    line->wanted = line->net / brushed;
    line->source = SOURCE_SEAL_CLASSES;
    line->basis = sealant_basis(takeoff, job, &sealing);
}

/* SOURCE_FLEX_TAPE: at one end of flexible duct. */
static double tape_at_end(double diameter, double insulation) {
    double jacket = diameter + 2 * insulation_thickness(insulation);
    return 2 * PI * diameter + (insulation > 0 ? 2 * PI * jacket : 0);
}

static double tape_of(const struct connection *connection) {
    if (connection->closing == CLOSED_READY)
        return size_perimeter(connection->size);
    if (connection->closing != CLOSED_FLEX)
        return 0;
    return tape_at_end(connection->size.width, piece_insulation(connection->piece, connection->run));
}

/* Lost at the ends of the roll: common practice, no source. */
static const double tape_waste = 0.10;

void count_tape(struct takeoff *takeoff, const struct job *job) {
    double length = 0;
    for (size_t i = 0; i < takeoff->connections.count; i++)
        length += tape_of(&takeoff->connections.at[i]);
    for (size_t i = 0; i < takeoff->splices.count; i++) {
        const struct splice *splice = &takeoff->splices.at[i];
        length += 2 * (double)splice->count * tape_at_end(splice->diameter, splice->insulation);
    }
    if (!(length > 0))
        return;
    (void)job;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = length;
    line->wanted = length * (1 + tape_waste);
    line->source = SOURCE_FLEX_TAPE;
    line->basis = "twice round the core at each end of flexible duct, splices among them, and round its jacket where "
                  "it is insulated; once round each joint of board; a tenth lost";
}

void count_gasket(struct takeoff *takeoff, const struct job *job) {
    (void)job;
    double length = 0;
    for (size_t i = 0; i < takeoff->connections.count; i++) {
        const struct connection *connection = &takeoff->connections.at[i];
        if (connection->closing == CLOSED_JOINT && connection->kind == JOINT_FLANGE)
            length += size_perimeter(connection->size);
    }
    if (!(length > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = length;
    line->wanted = length * (1 + tape_waste);
    line->source = SOURCE_FLANGE_CORNERS;
    line->basis = "once round each flanged joint; a tenth lost";
}
