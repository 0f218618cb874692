/* status.c - the sentence and the exit status of every bw_status, and the version. */
#include "bolewright/base.h"

const char bw_version[] = BW_VERSION;

const char *bw_status_text(bw_status status)
{
    switch (status) {
#define BW_STATUS_SENTENCE(code, sentence)                                               \
    case code:                                                                           \
        return sentence;
        BW_STATUS_LIST(BW_STATUS_SENTENCE)
#undef BW_STATUS_SENTENCE
    }
    return "an unknown status";
}

int bw_status_exit(bw_status status)
{
    switch (status) {
    case BW_OK:
        return 0;
    case BW_E_USAGE:
        return 2;
    case BW_E_INPUT:
        return 3;
    case BW_E_MECHANISM:
    case BW_E_CONDITION:
        return 4;
    case BW_E_IO:
        return 5;
    case BW_E_STOPPED:
        return 130; /* as shells do for Ctrl-C: 128 and the number of the signal */
    case BW_E_MEMORY:
    case BW_E_INTERNAL:
        break;
    }
    return 70;
}
