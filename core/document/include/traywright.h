/*
 * The door of traywright to exporters, in C99.
 *
 * An exporter is a shared library called libtraywright_NAME.so (with the platform's prefix and suffix) that turns one
 * document, a finished tray in plain data, into files. It has one symbol, traywright_exporter, declared at the end.
 *
 * Build:  cc -std=c99 -shared -fPIC -o libtraywright_NAME.so NAME.c
 * Try:    traywright exporters --plugins FOLDER
 *         traywright make JOB.kdl --as NAME --plugins FOLDER --into OUT
 *
 * Who owns what: memory never changes owner. Whoever passes a pointer keeps what it leads to, and lends it for the
 * time said beside it. Nobody frees, keeps or writes to what the other side has lent.
 *
 * Where it runs: in a process of its own, with a limit on time (3 s a document unless the maker allows more), on
 * memory (512 MiB) and on output (64 MiB and 256 files a document), in the "C" locale and in UTC. What it prints goes
 * nowhere; only if it crashes, the end of that is shown to the maker. It writes no file itself.
 * It is called from one thread, for many documents one after the other, and the same document must give the same
 * bytes each time: keep nothing from one call to the next, and ask no clock.
 */
#ifndef TRAYWRIGHT_H
#define TRAYWRIGHT_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The schema of documents that this header speaks of. It changes when a field of the document changes its meaning or
 * goes. Fields may be added within one schema: skip what you do not know. */
#define TRAYWRIGHT_SCHEMA 2u

#if defined(_WIN32)
#define TRAYWRIGHT_API __declspec(dllexport)
#elif defined(__GNUC__)
#define TRAYWRIGHT_API __attribute__((visibility("default")))
#else
#define TRAYWRIGHT_API
#endif

/*
 * Takes one file. Belongs to the program; to be called only during the call of export_document that it came with, and
 * from the thread of that call. All files of a call are written, or none.
 *
 *   ctx     the program's; hand back the one that came with the call, never look into it.
 *   suffix  yours; lent until this function returns. Ends with a zero byte. The program puts the job's name before
 *           it: ".svg" becomes NAME.svg, "-booklet.pdf" becomes NAME-booklet.pdf. It begins with '.' or '-', holds only
 *           ASCII letters, digits, '.' and '-', with one letter or digit at least, and is at most 40 bytes long. Two
 *           files of one document have different suffixes.
 *   bytes   yours; lent until this function returns. Not null, even when length is 0.
 *   length  how many bytes.
 *
 * Returns 0 when the file was taken; otherwise return from export_document with something else than 0.
 */
typedef int32_t (*tw_emit)(void *ctx, const char *suffix, const uint8_t *bytes, size_t length);

/*
 * Takes words for the maker: when export_document then returns something else than 0, they are the reason; when it
 * returns 0, they are a warning beside the files. One plain sentence without a full stop, at most 2000 bytes.
 * Belongs to the program; to be called only during the call of export_document that it came with, and from its thread.
 *
 *   ctx     as above.
 *   words   yours; lent until this function returns. UTF-8, ends with a zero byte.
 */
typedef void (*tw_say)(void *ctx, const char *words);

/*
 * What a library says about itself. Fields are only ever added at the end, so set struct_size with sizeof.
 */
typedef struct tw_exporter {
    /* TRAYWRIGHT_SCHEMA. Read first; with another number nothing below is looked at, struct_size aside. */
    uint32_t schema;

    /* sizeof(tw_exporter) where the library is built. */
    uint32_t struct_size;

    /* The NAME in the name of the library's file: ASCII letters, digits, '-' and '_'. Yours; ends with a zero byte;
     * unchanged as long as the library is loaded. */
    const char *name;

    /* The suffix of the file that the exporter is known for, such as ".svg". Yours; ends with a zero byte; unchanged
     * as long as the library is loaded. */
    const char *suffix;

    /*
     * Makes the files of one document.
     *
     *   document  the program's; lent until this function returns. JSON in UTF-8, without a zero byte at its end:
     *             {"schema":2,"document":{...}}. Lengths are millimetres, angles degrees; y is up; every number is
     *             finite; what is absent is left out, so null never comes.
     *             The fields are those of Document in core/document/src, under the same names.
     *   length    how many bytes.
     *   emit      takes each file.
     *   say       takes words.
     *   ctx       the program's; hand it to emit and say.
     *
     * Returns 0 when every file was emitted, one at least; anything else refuses the document.
     */
    int32_t (*export_document)(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx);
} tw_exporter;

/*
 * The one symbol of a library. Gives its descriptor: yours, unchanged as long as the library is loaded, never null.
 */
TRAYWRIGHT_API const tw_exporter *traywright_exporter(void);

#ifdef __cplusplus
}
#endif

#endif
