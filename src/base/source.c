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
            .text = "US Standard Atmosphere 1976 (NOAA, NASA, USAF)",
            .trace = "compared with the same standard in the fluids library 1.0.22",
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
                "Darcy and Weisbach's equation; F. M. White, Fluid Mechanics, whose example 6.15 was computed again",
            .known = SOURCE_READ,
        },
    [SOURCE_COLEBROOK] =
        {
            .method = "Friction factor of turbulent flow",
            .text = "C. F. Colebrook, Journal of the Institution of Civil Engineers, volume 11, 1939",
            .trace = "solved to machine precision; compared with the fluids library 1.0.22",
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
            .method = "Blower pressure between its points, by a smooth curve through them; none outside them",
            .text = "F. N. Fritsch and R. E. Carlson, SIAM Journal on Numerical Analysis, volume 17, 1980, with the "
                    "slopes of Fritsch and Butland, 1984",
            .trace = "a cubic that keeps the direction of the points; compared with the scipy library",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_IDELCHIK_BEND] =
        {
            .method = "Radius elbows",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 6-1",
            .trace = "some points as reprinted in general hydraulics libraries, those between from memory",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_MITRE] =
        {
            .method = "Square (mitred) elbows without vanes",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 6-5",
            .trace = "some points as reprinted in general hydraulics libraries, those between from memory",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_DIFFUSER] =
        {
            .method = "Gradual enlargements",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 5-4, by a fit made here",
            .trace = "through values reprinted in general hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_CONTRACTION] =
        {
            .method = "Gradual contractions",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 5-23",
            .trace = "as reprinted in general hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_TAP] =
        {
            .method = "Taps on the supply side: the branch, and the air that goes past",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagrams 7-16, 7-18 and 7-20; where its factor "
                    "jumps as the air shifts, a straight line chosen here",
            .trace = "as reprinted in general hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_SPLIT] =
        {
            .method = "Splits on the supply side whose legs have the area of the whole",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 7-16; the straight leg by diagram 7-17",
            .trace = "7-16 as reprinted in general hydraulics libraries, 7-17 from memory",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_BULLHEAD] =
        {
            .method = "Bullhead splits",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagram 7-29",
            .trace = "as reprinted in general hydraulics libraries",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_IDELCHIK_JOIN] =
        {
            .method = "Taps and joints on the return side, where air comes together",
            .text = "I. E. Idelchik, Handbook of Hydraulic Resistance, diagrams 7-1 and following; where its factor "
                    "jumps as the air shifts, a straight line chosen here",
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
    [SOURCE_OPERATING_POINT] =
        {
            .method =
                "What will really flow: the airflows at which the blower's curve and every path agree, rooms at one "
                "pressure",
            .text = "the sum of pressures round each loop",
            .trace = "by Newton's method on the trees, closed within 1e-9 in. w.g.; compared with the scipy library",
            .known = SOURCE_COMPUTED,
        },
    [SOURCE_PROPORTIONAL] =
        {
            .method =
                "Damper settings: the costliest path stays open, the others are closed to its share of the design",
            .text = "proportional balancing",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_AIRFLOW_SHORT] =
        {
            .method = "Outlets short of air: less than 90 % of their design",
            .text = "the tolerance that systems are balanced to",
            .known = SOURCE_PRACTICE,
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
            .method = "Vaned radius elbows, vaned elbows not of 90 degrees, flat oval elbows, elbows that change size",
            .text =
                "nearest relation: the elbow without vanes or the vaned square elbow, whichever is less; the "
                "vanes' 0.12 by Idelchik's angle factor; oval as rectangular of the same sides; one that changes "
                "size as an elbow of its smaller end and the change over its arc, abrupt when square (5-4 and 5-23)",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_NEAREST_CHANGE] =
        {
            .method = "Transitions of rectangular or unlike ends",
            .text = "nearest relation: the cone between round ends of the same areas (Idelchik 5-4 and 5-23); where "
                    "one side grows as the other shrinks at least the diffuser of the side that grows; a turned one at "
                    "least as a narrowing to the section halfway and back; one moved aside besides as two mitres (6-5)",
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
                "an exit of 1.0 or a flush entry of 0.5 (ASHRAE Handbook, Fundamentals, from memory)",
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
    [SOURCE_STATIC_REGAIN] =
        {
            .method = "Static regain: three quarters of the velocity pressure that is given up at a take-off comes "
                      "back as static pressure",
            .text = "ASHRAE Handbook, Fundamentals, and SMACNA, HVAC Systems Duct Design: 0.5 to 0.9, 0.75 usual",
            .known = SOURCE_MEMORY,
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
            .method =
                "Paths that need a damper: over 110 % of their design, balanced; where that is not known, more than "
                "0.05 in. w.g. easier than the governing one",
            .text = "the tolerance that systems are balanced to; the pressure is a limit chosen here",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_DUCT_HEAT] =
        {
            .method =
                "Temperature along a duct: T = Ts + (T0 - Ts) exp(-U A / (m cp)), at the design airflow, without leaks",
            .text = "the heat balance of a wall at one outside temperature, exact; any textbook of heat transfer",
            .known = SOURCE_COMPUTED,
        },
    [SOURCE_FILMS] =
        {
            .method =
                "Films of air at a duct's wall: 0.17 h ft2 F/btu inside, 0.68 outside in still air, 0.25 outdoors",
            .text =
                "0.85 for both is that of a public insulation design guide after ASHRAE Handbook, Fundamentals 2009, "
                "equation 48; how it is divided, and the film outdoors, are those of the same handbook. A bright "
                "jacket radiates less, and its surface is colder",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_LINING_VALUE] =
        {
            .method = "Duct liner conducts 0.25 btu in/(h ft2 F), R-4 an inch; board of 1 in has R-4.3",
            .text = "as makers state for liner and board of glass fibre; theirs goes before this",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_DEW_POINT] =
        {
            .method = "Dew point: e = 611.2 exp(17.62 t / (243.12 + t)) Pa over water, t in C",
            .text =
                "Magnus' equation with Sonntag's constants; Guide to Instruments and Methods of Observation, WMO-No. 8",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_INSULATION] =
        {
            .method =
                "Least insulation of duct: R-8 in an attic and outdoors, R-6 in a crawl space, none within the rooms",
            .text =
                "International Energy Conservation Code 2018, section R403.3.1, for duct of 3 in and more; what local "
                "code asks goes before it",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_LEAKAGE] =
        {
            .method =
                "Leakage of a hundred square feet of duct: class x pressure^0.65, cfm and in. w.g.; classes by shape "
                "and seal, 24, 12 and 6 of rectangular, 12, 6 and 3 of round duct sealed C, B and A; of flexible duct "
                "that is sealed 12, of fibrous board 6",
            .text = "SMACNA HVAC Air Duct Leakage Test Manual, table 4-1 (the exponent from memory of the same manual)",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_LEAKAGE_LIMIT] =
        {
            .method = "Leakage of at most 5 % of the airflow, where the job says nothing",
            .text = "a limit chosen here, as specifications often have it",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_LEAKAGE_TEST] =
        {
            .method = "Pressures of a leakage test: 25 Pa (0.1 in. w.g.), and 1 in. w.g. or 250 Pa, but no more than "
                      "the ducts are built for",
            .text =
                "25 Pa: International Energy Conservation Code 2018, section R403.3.3; the other is a pressure class "
                "in common use",
            .known = SOURCE_MEMORY,
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
            .method = "Offsets: two elbows of the angle that is made, collars at its ends and its depth kept",
            .text = "the nearest relation; each as if it stood alone: two of 90 degrees 1 to 3 sides apart lose up to "
                    "1.8 times as much (from memory: Idelchik, diagram 6-11)",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SHOP_DEFAULTS] =
        {
            .method = "Joint length, stretch of flexible duct and shapes where the shop gives none",
            .text = "habits of small shops",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_GAUGES] =
        {
            .method = "Galvanised sheet: thickness, least thickness and weight of each gauge",
            .text = "table of galvanised sheet gauges on the basis of ASTM A924/A924M and A653/A653M, two "
                    "printed copies that agree; the weights of gauges 17, 19, 21, 23 and 25 are the US "
                    "Standard gauge weight and 2.5 oz/ft2 of zinc",
            .known = SOURCE_READ,
        },
    [SOURCE_ALUMINIUM] =
        {
            .method = "Aluminium sheet: 14.2 lb/ft2 for each inch of thickness, numbered as galvanised "
                      "sheet as thick",
            .text = "density of alloy 3003, 0.0987 lb/in3",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_ALUMINIUM_FOR_STEEL] =
        {
            .method = "Aluminium in place of galvanised steel of 0.013, 0.016, 0.019, 0.024 in: 0.018, "
                      "0.023, 0.027, 0.034 in; above them in the ratio of the last",
            .text = "International Mechanical Code, section 603, duct construction",
            .known = SOURCE_READ,
        },
    [SOURCE_SHEET_CODE] =
        {
            .method = "Least sheet of ducts to 20 in and 1 in. w.g., by shape and size",
            .text = "International Mechanical Code 2015, table 603.4; thickness taken as the least of its "
                    "gauge, to a thousandth of an inch",
            .known = SOURCE_READ,
        },
    [SOURCE_SHEET_CITY] =
        {
            .method =
                "Least sheet of rectangular duct over 20 in: 24 gauge to 30 in, 22 to 54, 20 to 84, 18 above; standing "
                "joints no more than 4 ft apart, and over 42 in bars or angles besides",
            .text = "City of Zephyrhills, Florida, bid specification ICT 99184, section 15890",
            .known = SOURCE_READ,
        },
    [SOURCE_SHEET_SIDES] =
        {
            .method = "Least sheet of rectangular duct without reinforcement at 2 in. w.g.",
            .text = "SMACNA, HVAC Duct Construction Standards, table 2-1; of low confidence: have it "
                    "checked before it decides a job",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_SHEET_ROUND] =
        {
            .method = "Least sheet of round duct over 20 in: 24 gauge to 29 in, 22 to 39, 20 to 49, 18 "
                      "above",
            .text = "an engineering reference published online, table of sheet for general heating and ventilating",
            .known = SOURCE_READ,
        },
    [SOURCE_SHEET_ROUND_HIGH] =
        {
            .method = "Least sheet of round duct at 2 in. w.g., and flat oval duct taken as round of its "
                      "width",
            .text = "SMACNA, HVAC Duct Construction Standards; of low confidence: have it checked before "
                    "it decides a job",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_CROSS_BREAK] =
        {
            .method = "Flat sides cross-broken or beaded: 19 in and up, 20 gauge or lighter, more than 10 "
                      "ft2 unbraced",
            .text = "SMACNA, HVAC Duct Construction Standards",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_STOCK_SHEET] =
        {
            .method = "Sheets of 48 x 120 in where the shop lists none",
            .text = "a size commonly stocked",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_PITTSBURGH] =
        {
            .method = "Pittsburgh lock: pocket 1 in on the narrow strip, flange 1/4 in on the cheek",
            .text = "taught so; apprentices' course notes agree",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SNAPLOCK] =
        {
            .method = "Snap lock: pocket 1-1/8 in, flange 1/2 in; sheet of 20 to 26 gauge, no aluminium, to "
                      "4 in. w.g.",
            .text = "the limits: Machinery's Handbook, 31st edition, sheet-metal joints; the allowances "
                    "are common practice",
            .known = SOURCE_READ,
        },
    [SOURCE_GROOVED] =
        {
            .method = "Grooved seam: three times the width of the lock, twice on one edge and once on the "
                      "other; 1/4 in wide",
            .text = "the three widths after apprentices' course notes; how they are shared, and the "
                    "width, are common practice",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_LAP] =
        {
            .method = "Lapped seam: 3/4 in",
            .text = "common in riveted and spot-welded work, 3/4 to 1 in",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_STANDING_SEAM] =
        {
            .method = "Standing seam 1 in high: 1 in on one edge, 1-3/8 in on the edge folded over it",
            .text = "the height after a published city specification for ductwork; the fold is common "
                    "practice",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SLIP_AND_DRIVE] =
        {
            .method = "Slip and drive: 1/2 in of each end; S on the long sides, 3/4 in shorter than its "
                      "side; drives 2 in longer than theirs; to 2 in. w.g.",
            .text = "makers' guides to duct joining and roll-formed edges; Machinery's Handbook, 31st "
                    "edition, for the pressure; the strips' widths, 3-1/4 and 2-1/8 in, are common "
                    "practice",
            .known = SOURCE_READ,
        },
    [SOURCE_STANDING_S] =
        {
            .method = "Standing S where a side is over 20 in, 1 in high, strip 5-1/4 in wide, 3/4 in "
                      "shorter than its side",
            .text = "shops drop the flat S somewhere from 18 to 20 in, and drives as well; the limit of 20 in is "
                    "chosen here",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_ROLLED_FLANGE] =
        {
            .method = "Flange rolled on the duct: 1-7/8 in of each end",
            .text = "a maker's sheet of dimensions: blanks of 60 and 72 in make joints of 56-1/4 and "
                    "68-1/4 in; shared equally by the ends",
            .known = SOURCE_READ,
        },
    [SOURCE_CRIMP] =
        {
            .method = "Crimped end of round duct: a lap of 1-1/2 in, on the end toward which the air goes",
            .text = "International Mechanical Code, section 603, asks for 1 in at least; shops make 1-1/2 "
                    "to 2",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_RAW_EDGE] =
        {
            .method = "Raw edges take nothing",
            .text = "common in welded work and under slip-on flanges",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_CORNER_NOTCH] =
        {
            .method = "Corner notches: as deep as the end's allowance; square and 1/2 in wide on the side "
                      "of a drive, 45 degrees at a flange",
            .text = "the shapes after a manufacturing text (Singh); the sizes are common practice",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_JOINT_LINES] =
        {
            .method = "Joints of straight duct: full ones first; a leftover under 12 in is shared with the "
                      "joint before it, none shorter than 4 in",
            .text = "limits chosen here",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_BLANKING] =
        {
            .method = "Blanks of straight duct: one wrap while the sheet takes it, else two L's, else four "
                      "sides",
            .text = "makers' shop notes on duct sections; arithmetic",
            .known = SOURCE_READ,
        },
    [SOURCE_STACK] =
        {
            .method = "Stacks of sheets marked and notched together: eight of 26 gauge, others as thick",
            .text = "habits of small shops, six to eight light sheets",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_STATIC_PRESSURE] =
        {
            .method = "Static pressure: total pressure less velocity pressure; along the duct, what was lost from the "
                      "unit's collar on",
            .text = "Bernoulli's equation with losses; any textbook of fluid mechanics",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_HANGERS] =
        {
            .method = "Hangers of sheet-metal duct: 10 ft apart at most, within 2 ft of elbows and 4 ft of branches; 4 "
                      "ft apart where a side is 60 in or more",
            .text =
                "NREL Standard Work Specifications and the International Residential Code, M1601.4, for 10 ft; SMACNA, "
                "HVAC Duct Construction Standards, chapter 4, for elbows and branches; a published city specification "
                "for 60 in; read as excerpts",
            .known = SOURCE_READ,
        },
    [SOURCE_RISERS] =
        {
            .method = "Supports of risers: at each floor, 12 ft apart at most",
            .text = "SMACNA, HVAC Duct Construction Standards, riser supports",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_HANGER_STRAPS] =
        {
            .method =
                "Straps of hangers by half the girth and the spacing: 1 in of 22 to 16 gauge, 1-1/2 in of 16 gauge",
            .text = "SMACNA, HVAC Duct Construction Standards, the form of table 4-1; a shop's notes agree at 5 ft; "
                    "used for round and oval duct too",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_FLEX_HANGERS] =
        {
            .method =
                "Supports of flexible duct: 4 ft apart at most, 1-1/2 in wide at least; its collars count as supports",
            .text =
                "Air Diffusion Council, Flexible Duct Performance and Installation Standards, 5th edition, 4.6, as a "
                "national laboratory gives it",
            .known = SOURCE_REPRINTED,
        },
    [SOURCE_FASTENERS] =
        {
            .method = "Screws: 3 or more a round joint; flat and standing slips within 2 in of corners and 12 in apart "
                      "at most",
            .text =
                "International Mechanical Code, section 603, for round joints; Machinery's Handbook, 31st edition, "
                "for slips; more than 3 where a round joint has over 15 in between them, taps and canvas every 6 in: "
                "common practice, no source",
            .known = SOURCE_READ,
        },
    [SOURCE_FLEX_TIES] =
        {
            .method =
                "Ties of flexible duct: one round the core at each end, another round the jacket of insulated duct",
            .text = "Air Diffusion Council, Flexible Duct Performance and Installation Standards",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_FLANGE_CORNERS] =
        {
            .method =
                "Flanged joints: a corner piece in each corner of both ends, a bolt in each corner, a gasket all round",
            .text = "the trade's way with rolled flanges",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SEAL_CLASSES] =
        {
            .method = "Seal classes: A all joints, seams and penetrations; B joints and seams; C joints",
            .text = "SMACNA, HVAC Duct Construction Standards; where no class is named, joints alone, after the "
                    "International Residential Code, M1601.4.1; a band 2 in wide and 20 mil thick, of which a gallon "
                    "makes 481 ft, after a maker's data sheet; half lost in brushing is common practice",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_FLEX_TAPE] =
        {
            .method = "Tape: two turns round the core of flexible duct at each end, two round an insulated jacket; "
                      "once round each joint of board",
            .text = "Air Diffusion Council, Flexible Duct Performance and Installation Standards",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_WRAP] =
        {
            .method = "Duct wrap: 3/8 in thick for each R, three quarters of that as it is hung; its girth is that of "
                      "the duct and 2 in of lap, and 5 times its thickness round, 4 times rectangular",
            .text = "the stretch-out table of the insulation makers' association (NAIMA) for wrap pressed to three "
                    "quarters; a tenth lost in cutting is common practice",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_LINER] =
        {
            .method = "Lining: pins within 3 in of edges, 12 in apart across and 18 in along; a gallon of adhesive on "
                      "100 ft2",
            .text = "the duct liner standard of the insulation makers' association (NAIMA), air to 2500 fpm; adhesive "
                    "and a tenth lost in cutting are common practice",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_STRIP_GAUGE] =
        {
            .method = "Slips, drives and rails of the gauge of the duct they belong to",
            .text = "cut from what is left of the same sheets",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_OFFCUT_KEPT] =
        {
            .method = "Offcuts of 12 x 24 in (300 x 600 mm) and over kept for another job, where the shop does not say",
            .text = "what is smaller is seldom found again",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SHEAR_CUTS] =
        {
            .method =
                "Sheets cut from edge to edge, no metal lost in the cut, no edge trimmed, blanks turned as they fit",
            .text = "squaring shears",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_DUAL_FEASIBLE] =
        {
            .method = "Fewest sheets that any way of cutting needs: by area and by dual feasible functions",
            .text = "S. P. Fekete and J. Schepers, A general framework for bounds for higher-dimensional orthogonal "
                    "packing problems, Mathematical Methods of Operations Research 60, 2004",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_RUIN_AND_RECREATE] =
        {
            .method = "Search for a nest: regions of sheets cleared at random and filled again",
            .text = "J. Gardeyn and T. Wauters, A goal-driven ruin and recreate heuristic for the 2D variable-sized "
                    "bin packing problem with guillotine constraints, European Journal of Operational Research 301, "
                    "2022",
            .known = SOURCE_MEMORY,
        },
    [SOURCE_DUCT_OUTSIDE] =
        {
            .method = "Outside of a duct: wrap as thick as it is hung (R-8 is 2-1/4 in); where they stand out "
                      "farther, joints: slip-and-drive 1/2 in, standing S 1 in, flange 1-3/8 in, crimp 1/8 in",
            .text = "habits of the trade",
            .known = SOURCE_PRACTICE,
        },
    [SOURCE_SHORT_CYCLE] =
        {
            .method = "Distance of a supply outlet from a return inlet, so that its air does not go straight back",
            .text = "habits of the trade: 6 ft and more",
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
