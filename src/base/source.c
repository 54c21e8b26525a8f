/* The records of where everything comes from. */
#include "base/source.h"

static const struct source records[SOURCE_COUNT] = {
    [SOURCE_STANDARD_AIR] =
        {
            .method = "Standard air: 0.075 lb/ft3 at 70 F and sea level",
            .text = "ASHRAE Handbook, Fundamentals; the trade's charts rest on it",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_ATMOSPHERE] =
        {
            .method = "Barometric pressure at altitude",
            .text = "US Standard Atmosphere 1976 (NOAA, NASA, USAF); compared with the same standard in the fluids "
                    "library 1.0.22",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_IDEAL_GAS] =
        {
            .method = "Density at altitude: 0.075 lb/ft3 times the pressure ratio, at 70 F",
            .text = "ideal gas law at one temperature; dry air by the law alone would be 0.0749 lb/ft3 at sea level",
            .known = SOURCE_COMPUTED,
        },
    [SOURCE_SUTHERLAND] =
        {
            .method = "Viscosity of air",
            .text = "Sutherland's law with the constants of US Standard Atmosphere 1976",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_INCH_OF_WATER] =
        {
            .method = "1 in. w.g. = 248.84 Pa, water at 60 F",
            .text = "NIST Special Publication 811, Guide for the Use of the International System of Units",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_DARCY] =
        {
            .method = "Friction of straight duct: factor, length over diameter, velocity pressure",
            .text =
                "Darcy and Weisbach's equation; F. M. White, Fluid Mechanics, whose example 6.15 is one of the tests",
            .known = SOURCE_READ,
        },
    [SOURCE_COLEBROOK] =
        {
            .method = "Friction factor of turbulent flow, solved to machine precision",
            .text = "C. F. Colebrook, Journal of the Institution of Civil Engineers, volume 11, 1939; compared with "
                    "the fluids library 1.0.22",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_LAMINAR] =
        {
            .method = "Friction factor of slow flow: 64/Re under Re 2300, a straight line from there to Colebrook's at "
                      "Re 4000",
            .text = "Hagen and Poiseuille's law; the two limits after F. M. White, Fluid Mechanics; the straight line "
                    "is chosen here, no source",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_ROUGHNESS] =
        {
            .method = "Roughness of duct walls",
            .text = "ASHRAE Handbook, Fundamentals, duct design, table of duct roughness",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_HUEBSCHER] =
        {
            .method = "Round duct equal to a rectangular one: 1.30 (ab)^0.625 / (a+b)^0.25",
            .text = "R. G. Huebscher, ASHVE Transactions, volume 54, 1948; compared with 134 values read in the "
                    "Heating Ventilating Air Conditioning Guide 1956, chapter 32, table 1",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_HEYT_DIAZ] =
        {
            .method = "Round duct equal to a flat oval one: 1.55 A^0.625 / P^0.25",
            .text = "J. W. Heyt and M. J. Diaz, ASHRAE Transactions, volume 81, 1975",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_FLEX_COMPRESSION] =
        {
            .method = "Flexible duct that is not pulled straight: friction times 1 + 0.58 K exp(-0.126 D), K percent "
                      "short, D in inches",
            .text = "ASHRAE Handbook, Fundamentals, after tests by Abushakra, Walker and Sherman",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_BLOWER_CURVE] =
        {
            .method = "Blower pressure between its points: a cubic that keeps their direction; none outside them",
            .text = "F. N. Fritsch and R. E. Carlson, SIAM Journal on Numerical Analysis, volume 17, 1980, with the "
                    "slopes of Fritsch and Butland, 1984; compared with the scipy library",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_IDELCHIK_BEND] =
        {
            .method = "Radius elbows",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 6-1; some points as reprinted in "
                    "general hydraulics libraries, those between from memory",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_MITRE] =
        {
            .method = "Square (mitred) elbows without vanes",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 6-5; some points as reprinted in "
                    "general hydraulics libraries, those between from memory",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_DIFFUSER] =
        {
            .method = "Gradual enlargements",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 5-4, by a fit made here through values "
                    "reprinted in general hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_CONTRACTION] =
        {
            .method = "Gradual contractions",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 5-23, as reprinted in general "
                    "hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_TAP] =
        {
            .method = "Taps on the supply side: the branch, and the air that goes past",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagrams 7-16, 7-18 and 7-20, as reprinted in "
                    "general hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_SPLIT] =
        {
            .method = "Splits on the supply side whose legs have the area of the whole",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 7-16 as reprinted in general hydraulics "
                    "libraries; the straight leg by diagram 7-17 from memory",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_BULLHEAD] =
        {
            .method = "Bullhead splits",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 7-29, as reprinted in general "
                    "hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_JOIN] =
        {
            .method = "Taps and joints on the return side, where air comes together",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagrams 7-1 and following",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_IDELCHIK_JOIN_BULLHEAD] =
        {
            .method = "Bullheads on the return side, legs of one size: 1 + 1/f^2 + 3 (Q^2 - Q)/f^2, f the leg's share "
                      "of the area, Q of the air",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, merging of opposed streams in a symmetrical tee",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_ELBOW_REYNOLDS] =
        {
            .method = "Radius elbows at Reynolds numbers under 200 000: up to twice the coefficient at 10 000",
            .text = "ASHRAE Handbook, Fundamentals, duct fitting tables, Reynolds number correction of elbows; in a "
                    "round elbow on its smooth part only",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_GORED_ELBOW] =
        {
            .method = "Round elbows of several pieces: the radius elbow, plus 0.6 of each mitre between pieces",
            .text = "Idelchik's diagram 6-1 and J. Weisbach's law of the mitre; the 0.6 is chosen here to lie near the "
                    "table of the ASHRAE and SMACNA duct manuals",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_VANED_ELBOW] =
        {
            .method = "Square elbows with turning vanes",
            .text = "ASHRAE and SMACNA duct manuals, single-thickness vanes",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_DAMPER_BLADE] =
        {
            .method = "Dampers by blade angle",
            .text = "J. Weisbach's throttle plates as tabled in I. E. Idelchik, Handbook of Hydraulic Resistance; a "
                    "blade wide open is taken as 0.20, common practice",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_NEAREST_BEND] =
        {
            .method = "Vaned radius elbows, vaned elbows not of 90 degrees, flat oval elbows",
            .text = "nearest relation: the elbow without vanes or the vaned square elbow, whichever is less; the "
                    "vanes' 0.12 by Idelchik's angle factor; oval as rectangular of the same sides",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_CHANGE] =
        {
            .method = "Transitions of rectangular or unlike ends",
            .text = "nearest relation: the cone between round ends of the same areas (Idelchik 5-4 and 5-23); where "
                    "one side grows as the other shrinks at least the diffuser of the side that grows; a turned one at "
                    "least as "
                    "a narrowing to the section halfway and back; one moved aside besides as two mitres (6-5)",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_TAP] =
        {
            .method = "Shoe, conical and saddle taps",
            .text = "nearest relation: Idelchik's plain branches, a shoe as one of 45 degrees, a conical tap as one of "
                    "60, a saddle as one of 90",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_SPLIT] =
        {
            .method = "Splits whose areas are not those of a relation, wyes on the return side, bullheads with vanes",
            .text = "nearest relation: Idelchik's for legs of other areas; a joining branch of 45 degrees for a wye on "
                    "the return side; vanes as the bullhead with a smooth throat, on the return side as none",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_BOOT] =
        {
            .method = "Boots",
            .text =
                "nearest relation: a square elbow (Idelchik 6-5) for an elbow boot, two mitres (6-5) for one that is "
                "moved aside, and the change of area to the register (5-4 and 5-23); open to the room with no register "
                "an exit of 1.0 or a flush entry of 0.5 "
                "(ASHRAE Handbook, Fundamentals, from memory)",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_BOX] =
        {
            .method = "Plenum boxes",
            .text =
                "nearest relation: an abrupt enlargement into the box and an abrupt contraction out of it where duct "
                "goes on (Idelchik 4-1 and 4-9); taps in it by the relations of taps, with the box as the duct",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_FLEX] =
        {
            .method = "Bends in flexible duct, flexible connectors",
            .text = "nearest relation: each bend a smooth round elbow of radius 1.0; a connector as flexible duct "
                    "pulled straight",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_DAMPER] =
        {
            .method = "Backdraft and fire dampers, dampers in flat oval duct",
            .text = "nearest relation: a single blade, wide open in a fire damper, 20 degrees from it in a backdraft "
                    "damper; oval as rectangular",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_DECLARED_DROP] =
        {
            .method = "Drops declared in the job, scaled with the square of the airflow where it says at how much air",
            .text = "the job itself; the square is that of turbulent flow",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_ASSUMED_DROP] =
        {
            .method = "Drops that the job leaves open: register 0.03, grille 0.03, filter 0.10 in. w.g. at the design "
                      "airflow",
            .text = "rules of thumb; replace them by the maker's figures",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_RATED_AIR] =
        {
            .method = "Blower points and drops, declared or assumed, are makers' figures for standard air: at altitude "
                      "times the density over 0.075 lb/ft3",
            .text = "fan laws, pressure goes with density at one airflow: ASHRAE Handbook, HVAC Systems and Equipment",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_SENSIBLE_HEAT] =
        {
            .method = "Airflow for a load: 1.08 btu/h for each cfm and F in standard air, from 0.24 btu/(lb F)",
            .text = "ASHRAE Handbook, Fundamentals",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_SUPPLY_AIR] =
        {
            .method = "Airflow for a load where the job gives no temperatures: supply air 20 F from the room",
            .text = "rule of thumb; replace it by the temperatures of the unit",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_CFM_PER_TON] =
        {
            .method = "Airflow for cooling: about 400 cfm a ton",
            .text = "ASHRAE Handbook, Fundamentals, and the trade's habit",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_VELOCITY_GUIDE] =
        {
            .method = "Velocity targets and limits by kind of run",
            .text = "ANSI/ACCA 1, residential duct systems, and practice",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_FRICTION_RANGE] =
        {
            .method = "Range of the friction rate: 0.03 to 0.10 in. w.g. per 100 ft, never over 0.15",
            .text = "rules of residential practice; the 0.15 is civil engineers' practice, read",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_ASPECT_RATIO] =
        {
            .method = "Rectangular duct no flatter than the shop's limit, 4 to 1 where it gives none",
            .text = "rule of the trade",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_STANDARD_SIZES] =
        {
            .method = "Standard sizes where the shop lists none",
            .text = "sizes commonly stocked",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_FLEX_LENGTH] =
        {
            .method = "Longest run of flexible duct",
            .text = "rule of the trade",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_RETURN_AREA] =
        {
            .method = "Face velocities of return grilles and filters",
            .text = "ANSI/ACCA 1, residential duct systems, and practice",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_BALANCE] =
        {
            .method = "Paths that need a damper: more than 0.05 in. w.g. easier than the governing one",
            .text = "a limit chosen here",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_TAP_FIT] =
        {
            .method = "Room for taps: 1/2 in of metal beside the opening; a cone is 1 in larger than its run, a shoe "
                      "longer by a quarter, 4 in at least, toward the unit",
            .text = "limits chosen here; the length of a shoe from memory of a 45-degree entry in SMACNA HVAC Duct "
                    "Construction Standards",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_TAPER] =
        {
            .method = "Transitions: 20 degrees a side where the air spreads, 45 where it draws together",
            .text = "a published city specification for ductwork (increase taper, easements)",
            .known = SOURCE_READ,
        },
    [SOURCE_NOMINAL_FACE] =
        {
            .method = "Faces that need a boot: more than 1 in a side off their duct",
            .text = "a limit chosen here",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SUPPLY_RETURN] =
        {
            .method = "Supply and return airflow agree",
            .text = "conservation of mass",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_OFFSET_ELBOWS] =
        {
            .method = "Offsets: two elbows of the same angle",
            .text = "the nearest relation; the nearness of the two is left out of account",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SHOP_DEFAULTS] =
        {
            .method = "Joint length, stretch of flexible duct and shapes where the shop gives none",
            .text = "habits of small shops",
            .known = SOURCE_PRACTICE,
        },
};

const struct source *source_of(enum source_id id) {
    return &records[id];
}

const char *source_known_words(enum source_known known) {
    static const char *const words[] = {
        [SOURCE_READ] = "read",
        [SOURCE_REPRINTED] = "read as reprinted elsewhere",
        [SOURCE_COMPUTED] = "computed",
        [SOURCE_MEMORY] = "from memory",
        [SOURCE_PRACTICE] = "common practice, no source",
    };
    return words[known];
}
