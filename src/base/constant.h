/* Constants of the units: what one of each is in SI. */
#ifndef CLEAT_BASE_CONSTANT_H
#define CLEAT_BASE_CONSTANT_H

#define PI 3.14159265358979323846

/* Exact, by definition: the international foot and pound (1959), the US gallon, the degree Fahrenheit. */
#define INCH 0.0254                       /* m */
#define FOOT 0.3048                       /* m */
#define MILLIMETRE 0.001                  /* m */
#define POUND 0.45359237                  /* kg */
#define GALLON (231 * INCH * INCH * INCH) /* m3; of the US, for liquids */
#define LITRE 0.001                       /* m3 */
#define MINUTE 60.0                       /* s */
#define HOUR 3600.0                       /* s */
#define DEGREE (PI / 180)                 /* rad */
#define RANKINE (5.0 / 9)                 /* K, also a difference of one degree Fahrenheit */

#define CFM (FOOT * FOOT * FOOT / MINUTE) /* m3/s */
#define FPM (FOOT / MINUTE)               /* m/s */

/* NIST Special Publication 811 (2008), Guide for the Use of the SI, appendix B.8; from memory. */
#define INCH_OF_WATER 248.84                             /* Pa; inch of water (60 F) */
#define INCH_PER_100_FEET (INCH_OF_WATER / (100 * FOOT)) /* Pa/m; inch of water in 100 ft */
#define BTU 1055.05585262                                /* J; the International Table btu */
#define BTU_HOUR (BTU / HOUR)                            /* W */
#define R_VALUE (FOOT * FOOT * RANKINE / BTU_HOUR)       /* m2 K/W; one R of the trade, h ft2 F/btu; 0.1761102 */

/* Exact, by definition: where the scales of temperature begin. */
#define ZERO_CELSIUS 273.15                /* K */
#define ZERO_FAHRENHEIT (459.67 * RANKINE) /* K */

#endif
