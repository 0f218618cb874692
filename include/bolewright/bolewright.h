/* bolewright.h - the whole library in one include. The page in the browser is part of the
 * program, not of the library. */
#ifndef BW_BOLEWRIGHT_H
#define BW_BOLEWRIGHT_H

#include "bolewright/base.h"
#include "bolewright/checks.h"
#include "bolewright/deck.h"
#include "bolewright/frame.h"
#include "bolewright/input.h"
#include "bolewright/report.h"
#include "bolewright/sizing.h"
#include "bolewright/wood.h"

#endif
