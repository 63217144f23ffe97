/* Tries what no exporter may do, and writes one line for each: its name, and `done` or the number of the error. With
   PROBE_ALONE the same attempts run in a program of their own, which shows that they succeed elsewhere; with an
   argument this program tells instead whether the kernel has Landlock and seccomp. */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/ptrace.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

static char report[4096];

static void tell(const char *attempt, int done) {
    char line[128];
    int error = errno;
    if (done) {
        snprintf(line, sizeof line, "%s done\n", attempt);
    } else {
        snprintf(line, sizeof line, "%s %d\n", attempt, error);
    }
    strncat(report, line, sizeof report - strlen(report) - 1);
}

static int starts_a_process(void) {
    pid_t child = fork();
    if (child == 0) {
        _exit(0);
    }
    return child > 0 && waitpid(child, NULL, 0) == child;
}

/* Opens the file to write to without a change to its content. */
static int writes(const char *path) {
    int file = open(path, O_WRONLY | O_APPEND);
    return file >= 0 && close(file) == 0;
}

static int creates(void) {
    char path[] = "/tmp/probe-XXXXXX";
    int file = mkstemp(path);
    return file >= 0 && close(file) == 0 && unlink(path) == 0;
}

static int traces(pid_t other) {
    return ptrace(PTRACE_SEIZE, other, NULL, NULL) == 0;
}

static int limits(pid_t other) {
    struct rlimit limit;
    return prlimit(other, RLIMIT_CORE, NULL, &limit) == 0 && prlimit(other, RLIMIT_CORE, &limit, NULL) == 0;
}

static int takes(size_t bytes) {
    void *memory = malloc(bytes);
    int done = memory != NULL;
    free(memory);
    return done;
}

static void attempt_all(void) {
    pid_t parent = getppid();
    tell("read", access("/etc/hostname", F_OK) == 0 && open("/etc/hostname", O_RDONLY) >= 0);
    tell("list", open("/", O_RDONLY | O_DIRECTORY) >= 0);
    tell("write", writes("/dev/null"));
    tell("create", creates());
    tell("rename", rename("/tmp/probe-missing", "/tmp/probe-gone") == 0 || errno == ENOENT);
    errno = ENOENT;
    tell("variable", getenv("HOME") != NULL);
    tell("socket", socket(AF_INET, SOCK_STREAM, 0) >= 0);
    tell("pair", socketpair(AF_UNIX, SOCK_STREAM, 0, (int[2]){0, 0}) == 0);
    tell("fork", starts_a_process());
    tell("group", setpgid(0, 0) == 0);
    tell("signal", kill(parent, SIGCONT) == 0);
    tell("trace", traces(parent));
    tell("limit", limits(parent));
    tell("stay", prctl(PR_SET_PDEATHSIG, 0) == 0);
    tell("memory", takes((size_t)700 * 1024 * 1024));
    execl("/missing", "missing", (char *)NULL);
    tell("exec", errno == ENOENT);
}

#ifdef PROBE_ALONE
/* Source: linux/landlock.h: number 444, with no rules and flag 1 it gives its version; prctl(2), PR_GET_SECCOMP. */
static int has_landlock_and_seccomp(void) {
    return syscall(444, NULL, 0, 1) >= 1 && prctl(PR_GET_SECCOMP) >= 0;
}

int main(int count, char **arguments) {
    (void)arguments;
    if (count > 1) {
        return puts(has_landlock_and_seccomp() ? "both" : "not both") < 0;
    }
    attempt_all();
    return fputs(report, stdout) < 0;
}
#else
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    attempt_all();
    return emit(ctx, ".txt", (const uint8_t *)report, strlen(report));
}

DESCRIBE("probe", ".txt", export_document)
#endif
