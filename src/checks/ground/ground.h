/* ground.h - what the checks of the ground share. They rest on no strength of wood, so
 * every basis has the same. */
#ifndef BW_CHECKS_GROUND_H
#define BW_CHECKS_GROUND_H

#include "../record.h"

extern const bw_check bwi_buckling; /* ../buckling.c: of no basis either */
extern const bw_check bwi_ground_lateral, bwi_ground_bearing, bwi_ground_uplift;

/* A = 2.34 P / (S1 b) [m], the length in which IBC Eq. 18-1 counts, from the pressure S1
 * at a third of the depth. */
double bwi_hole_scale(double push, double pressure, double width);

/* S1: allowable pressure at a third of the depth, none added below 12 ft [Pa]. */
double bwi_hole_pressure(const bw_hole *hole, double depth);

/* Demand and capacity as pushes at the ground line [N]: V + 1.09 M / d and S1 b d / 2.34.
 * They are Eq. 18-1 solved for the push, and stay sound when V or M is 0. */
double bwi_hole_demand(double depth, double push, double moment);
double bwi_hole_capacity(const bw_hole *hole, double depth);

/* A number of the table of soils, under the symbol. */
void bwi_record_soil(bw_working *working, const char *symbol, const char *meaning,
                     const bw_sourced *value, bw_quantity quantity);

#endif
