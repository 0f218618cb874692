/* Dates of the Gregorian calendar, counted in days. */
#include "bolewright/base.h"

#include <stdlib.h>
#include <string.h>

static bool is_leap(long year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int days_of(long year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month == 2 && is_leap(year) ? 29 : days[month - 1];
}

bool bw_date_read(const char *text, bw_date *out)
{
    static const char shape[] = "dddd-dd-dd";
    if (strlen(text) != sizeof shape - 1) {
        return false;
    }
    for (size_t i = 0; i < sizeof shape - 1; i++) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (shape[i] == 'd' ? !digit : text[i] != shape[i]) {
            return false;
        }
    }
    const bw_date d = {strtol(text, NULL, 10), (int)strtol(text + 5, NULL, 10),
                       (int)strtol(text + 8, NULL, 10)};
    if (d.year < 1900 || d.month < 1 || d.month > 12 || d.day < 1 ||
        d.day > days_of(d.year, d.month)) {
        return false;
    }
    *out = d;
    return true;
}

long bw_date_day(bw_date d)
{
    long day = d.day - 1;
    for (int month = 1; month < d.month; month++) {
        day += days_of(d.year, month);
    }
    for (long year = 1900; year < d.year; year++) {
        day += is_leap(year) ? 366 : 365;
    }
    return day;
}

bw_date bw_date_of_day(long day)
{
    bw_date d = {1900, 1, 1};
    for (; day >= (is_leap(d.year) ? 366 : 365); d.year++) {
        day -= is_leap(d.year) ? 366 : 365;
    }
    for (; day >= days_of(d.year, d.month); d.month++) {
        day -= days_of(d.year, d.month);
    }
    d.day = (int)day + 1;
    return d;
}

bw_date bw_date_year_later(bw_date d)
{
    d.year++;
    d.day = d.day > days_of(d.year, d.month) ? days_of(d.year, d.month) : d.day;
    return d;
}

const char *bw_date_print(bw_arena *arena, bw_date d)
{
    return bw_arena_print(arena, "%04ld-%02d-%02d", d.year, d.month, d.day);
}
