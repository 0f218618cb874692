/* Round sections: A = pi d^2/4, I = pi d^4/64, S = pi d^3/32. */
#include "bolewright/frame.h"
#include "internal.h"

#include <math.h>

bw_section bw_section_round(double diameter)
{
    return (bw_section){.kind = BW_SECTION_ROUND, .diameter = diameter};
}

bw_section bw_section_given(double area, double second_moment, double modulus)
{
    return (bw_section){.kind = BW_SECTION_GIVEN,
                        .area = area,
                        .second_moment = second_moment,
                        .modulus = modulus};
}

double bw_section_area(const bw_section *s)
{
    const double d = s->diameter;
    return s->kind == BW_SECTION_ROUND ? BWI_PI * d * d / 4.0 : s->area;
}

double bw_section_second_moment(const bw_section *s)
{
    const double d = s->diameter;
    return s->kind == BW_SECTION_ROUND ? BWI_PI * d * d * d * d / 64.0 : s->second_moment;
}

double bw_section_modulus(const bw_section *s)
{
    const double d = s->diameter;
    return s->kind == BW_SECTION_ROUND ? BWI_PI * d * d * d / 32.0 : s->modulus;
}

bw_section bw_section_between(const bw_section *a, const bw_section *b, double t)
{
    bw_section s = *a;
    s.diameter = a->diameter + t * (b->diameter - a->diameter);
    return s;
}
