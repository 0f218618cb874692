/* Strength classes of graded timber: EN 338:2016, Tables 1 and 3, edgewise bending (READ
 * in two public transcriptions with the same numbers).
 *
 * They are for sawn rectangular timber conditioned at 20 C and 65 %: service class 3
 * brings them down by k_mod. No strength class is given to a round log by its looks: that
 * takes grading and tests of round timber (EN 14544, EN 14251). */
#include "bolewright/wood.h"

#include <string.h>

#define SOURCE(name)                                                                     \
    "EN 338:2016, class " name ": sawn timber; a round log needs grading to EN 14544"

/* name, group; f_m,k f_c,0,k f_c,90,k f_v,k [Pa]; E_0,mean E_0,05 [Pa]; rho_k rho_mean
 * [kg/m3] */
static const bw_strength_class classes[] = {
    /* clang-format off */
    {"C14", BW_SOFTWOOD, 14e6, 16e6, 2e6, 3e6, 7e9, 4.7e9, 290.0, 350.0, SOURCE("C14")},
    {"C16", BW_SOFTWOOD, 16e6, 17e6, 2.2e6, 3.2e6, 8e9, 5.4e9, 310.0, 370.0, SOURCE("C16")},
    {"C18", BW_SOFTWOOD, 18e6, 18e6, 2.2e6, 3.4e6, 9e9, 6e9, 320.0, 380.0, SOURCE("C18")},
    {"C20", BW_SOFTWOOD, 20e6, 19e6, 2.3e6, 3.6e6, 9.5e9, 6.4e9, 330.0, 400.0, SOURCE("C20")},
    {"C22", BW_SOFTWOOD, 22e6, 20e6, 2.4e6, 3.8e6, 10e9, 6.7e9, 340.0, 410.0, SOURCE("C22")},
    {"C24", BW_SOFTWOOD, 24e6, 21e6, 2.5e6, 4e6, 11e9, 7.4e9, 350.0, 420.0, SOURCE("C24")},
    {"C27", BW_SOFTWOOD, 27e6, 22e6, 2.5e6, 4e6, 11.5e9, 7.7e9, 360.0, 430.0, SOURCE("C27")},
    {"C30", BW_SOFTWOOD, 30e6, 24e6, 2.7e6, 4e6, 12e9, 8e9, 380.0, 460.0, SOURCE("C30")},
    {"C35", BW_SOFTWOOD, 35e6, 25e6, 2.7e6, 4e6, 13e9, 8.7e9, 390.0, 470.0, SOURCE("C35")},
    {"C40", BW_SOFTWOOD, 40e6, 27e6, 2.8e6, 4e6, 14e9, 9.4e9, 400.0, 480.0, SOURCE("C40")},
    {"C45", BW_SOFTWOOD, 45e6, 29e6, 2.9e6, 4e6, 15e9, 10.1e9, 410.0, 490.0, SOURCE("C45")},
    {"C50", BW_SOFTWOOD, 50e6, 30e6, 3e6, 4e6, 16e9, 10.7e9, 430.0, 520.0, SOURCE("C50")},
    {"D18", BW_HARDWOOD, 18e6, 18e6, 4.8e6, 3.5e6, 9.5e9, 8e9, 475.0, 570.0, SOURCE("D18")},
    {"D24", BW_HARDWOOD, 24e6, 21e6, 4.9e6, 3.7e6, 10e9, 8.4e9, 485.0, 580.0, SOURCE("D24")},
    {"D27", BW_HARDWOOD, 27e6, 22e6, 5.1e6, 3.8e6, 10.5e9, 8.8e9, 510.0, 610.0, SOURCE("D27")},
    {"D30", BW_HARDWOOD, 30e6, 24e6, 5.3e6, 3.9e6, 11e9, 9.2e9, 530.0, 640.0, SOURCE("D30")},
    {"D35", BW_HARDWOOD, 35e6, 25e6, 5.4e6, 4.1e6, 12e9, 10.1e9, 540.0, 650.0, SOURCE("D35")},
    {"D40", BW_HARDWOOD, 40e6, 27e6, 5.5e6, 4.2e6, 13e9, 10.9e9, 550.0, 660.0, SOURCE("D40")},
    {"D45", BW_HARDWOOD, 45e6, 29e6, 5.8e6, 4.4e6, 13.5e9, 11.3e9, 580.0, 700.0, SOURCE("D45")},
    {"D50", BW_HARDWOOD, 50e6, 30e6, 6.2e6, 4.5e6, 14e9, 11.8e9, 620.0, 740.0, SOURCE("D50")},
    {"D55", BW_HARDWOOD, 55e6, 32e6, 6.6e6, 4.7e6, 15.5e9, 13e9, 660.0, 790.0, SOURCE("D55")},
    {"D60", BW_HARDWOOD, 60e6, 33e6, 10.5e6, 4.8e6, 17e9, 14.3e9, 700.0, 840.0, SOURCE("D60")},
    {"D65", BW_HARDWOOD, 65e6, 35e6, 11.3e6, 5e6, 18.5e9, 15.5e9, 750.0, 900.0, SOURCE("D65")},
    {"D70", BW_HARDWOOD, 70e6, 36e6, 12e6, 5e6, 20e9, 16.8e9, 800.0, 960.0, SOURCE("D70")},
    {"D75", BW_HARDWOOD, 75e6, 37e6, 12.8e6, 5e6, 22e9, 18.5e9, 850.0, 1020.0, SOURCE("D75")},
    {"D80", BW_HARDWOOD, 80e6, 38e6, 13.5e6, 5e6, 24e9, 20.2e9, 900.0, 1080.0, SOURCE("D80")},
    /* clang-format on */
};

const bw_strength_class *bw_strength_class_at(size_t i)
{
    return i < sizeof classes / sizeof classes[0] ? &classes[i] : NULL;
}

const bw_strength_class *bw_strength_class_find(const char *name)
{
    for (size_t i = 0; name != NULL && i < sizeof classes / sizeof classes[0]; i++) {
        if (strcmp(classes[i].name, name) == 0) {
            return &classes[i];
        }
    }
    return NULL;
}
