/* Starts a process that stays, and never comes back. */
#define _POSIX_C_SOURCE 200809L
#include <stdlib.h>
#include <unistd.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    if (fork() == 0) {
        execlp("sleep", "sleep", "1234.5", (char *)NULL);
        _exit(1);
    }
    for (;;) {
        sleep(1);
    }
}

DESCRIBE("leaves-a-child", ".txt", export_document)
