/* The lines that every exporter of these tests shares: its descriptor and the symbol that gives it. */
#include "traywright.h"

#define DESCRIBE(NAME, SUFFIX, FUNCTION)                                                                               \
    const tw_exporter *traywright_exporter(void) {                                                                     \
        static const tw_exporter exporter = {TRAYWRIGHT_SCHEMA, sizeof(tw_exporter), NAME, SUFFIX, FUNCTION};          \
        return &exporter;                                                                                              \
    }

#define UNUSED_ARGUMENTS                                                                                               \
    (void)document;                                                                                                    \
    (void)length;                                                                                                      \
    (void)emit;                                                                                                        \
    (void)say;                                                                                                         \
    (void)ctx
