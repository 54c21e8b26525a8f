/* The work behind the scanner's rules of numbers: fractions, units that stand at a number, dates. */
#include "lang/scan.h"

#include <ctype.h>
#include <string.h>

#include "base/constant.h"
#include "grammar/parser.h"

/* More digits than this are not a measure of anything. */
enum { DIGITS_LIMIT = 18 };

/* A decimal number.  Up to 15 digits it is the nearest double: both numbers of the division are exact. */
static double decimal(const char *digits, size_t length) {
    double number = 0, scale = 1;
    bool point = false;
    for (size_t i = 0; i < length; i++) {
        if (digits[i] == ',')
            continue;
        if (digits[i] == '.') {
            point = true;
            continue;
        }
        number = number * 10 + (digits[i] - '0');
        if (point)
            scale *= 10;
    }
    return number / scale;
}

static size_t digits_before(const char *bytes, size_t length, char end) {
    const char *found = memchr(bytes, end, length);
    return found ? (size_t)(found - bytes) : length;
}

/* 14, 0.30, 1/4, 3-1/2, 3 1/2: without a sign. */
static double plain_number(struct scan *scan, const char *bytes, size_t length) {
    size_t slash = digits_before(bytes, length, '/');
    if (slash == length)
        return decimal(bytes, length);
    size_t top = slash; /* where the fraction begins */
    while (top > 0 && isdigit((unsigned char)bytes[top - 1]))
        top--;
    size_t whole = 0;
    while (whole < top && isdigit((unsigned char)bytes[whole]))
        whole++;
    double bottom = decimal(bytes + slash + 1, length - slash - 1);
    if (bottom == 0) {
        scan_hint(scan, scan_fault(scan, scan->at, "a fraction cannot have 0 below the line"), "write it like 5/8");
        bottom = 1;
    }
    return decimal(bytes, whole) + decimal(bytes + top, slash - top) / bottom;
}

static size_t count_digits(const char *bytes, size_t length) {
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += isdigit((unsigned char)bytes[i]) != 0;
    return count;
}

int scan_number(struct scan *scan, struct quantity *quantity) {
    size_t length;
    const char *bytes = scan_matched(scan, &length);
    *quantity = (struct quantity){0};
    bool negative = bytes[0] == '-';
    if (count_digits(bytes, length) > DIGITS_LIMIT)
        scan_fault(scan, scan->at, "this number has more digits than any measure needs");
    else
        quantity->number = plain_number(scan, bytes + negative, length - negative);
    if (negative)
        quantity->number = -quantity->number;
    return scan_take(scan, NUMBER);
}

int scan_resistance(struct scan *scan, struct quantity *quantity) {
    scan->at.begin += 2; /* the number behind R- */
    scan_number(scan, quantity);
    scan->at.begin -= 2;
    scan->last = scan->at;
    quantity->measure = measure_find("R", 1);
    scan->measured = true;
    return NUMBER;
}

size_t scan_thousands(struct scan *scan, char next) {
    size_t length;
    const char *bytes = scan_matched(scan, &length);
    size_t first = digits_before(bytes, length, ',');
    if (first > 3 || isdigit((unsigned char)next))
        return first; /* a list without blanks */
    struct diagnostic *diagnostic =
        diagnose(scan->diagnostics, DIAGNOSTIC_ERROR, "syntax", scan->at, "a number is written without commas");
    char plain[40];
    size_t count = 0;
    for (size_t i = 0; i < length && count + 1 < sizeof plain; i++)
        if (bytes[i] != ',')
            plain[count++] = bytes[i];
    plain[count] = 0;
    diagnostic_hint(scan->diagnostics, diagnostic, "write %s", plain);
    return length;
}

int scan_date(struct scan *scan, const char **text) {
    size_t length;
    const char *bytes = scan_matched(scan, &length);
    *text = arena_copy(scan->arena, bytes, length < 10 ? length : 10);
    if (length != 10 || bytes[4] != '-' || bytes[7] != '-')
        scan_hint(scan, scan_fault(scan, scan->at, "a date is written year-month-day"), "write it like 2026-04-18");
    return scan_take(scan, DATE);
}

bool scan_percent(struct scan *scan, const struct measure **measure) {
    if (scan->behind == NUMBER && !scan->measured && (*measure = measure_find("%", 1))) {
        scan_take(scan, UNIT);
        return true;
    }
    scan_fault(scan, scan->at, "%% belongs behind a number");
    return false;
}

void scan_inches(struct scan *scan, struct span at, double inches) {
    struct diagnostic *diagnostic = scan_fault(scan, at, "inches behind feet are fewer than 12: a foot has 12");
    char text[TAPE_ROOM];
    measure_tape(text, inches * INCH);
    if (diagnostic)
        diagnostic_hint(scan->diagnostics, diagnostic, "write %s", text);
}
