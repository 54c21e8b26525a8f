/* Caps.  No air goes past the last tap, so a cap loses nothing. */
#include "piece/common.h"
#include "piece/kinds.h"

const struct piece_kind piece_cap = {
    .form =
        {
            .word = "cap",
            .places = IN_RUN,
            .meaning = "closes the end of a run that only taps leave",
            .example = "cap",
        },
    .title = "Cap",
    .traits = PIECE_ENDS_RUN | PIECE_IMPLIED_CAP,
};
