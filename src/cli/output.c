/* output.c - writing to streams and files. */
#include "output.h"

#include "bolewright/input.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static _Thread_local bw_text *captured_text;
static _Thread_local bw_diags *captured_faults;

static _Thread_local const bwi_given *given_texts;

void bwi_output_give(const bwi_given *given)
{
    given_texts = given;
}

bw_status bwi_output_read(bw_arena *arena, const char *path, const char **text,
                          bw_diags *d)
{
    if (captured_text == NULL) {
        return bw_input_read_file(arena, path, text, d);
    }
    for (const bwi_given *g = given_texts; g != NULL && g->path != NULL; g++) {
        if (strcmp(g->path, path) == 0) {
            *text = g->text;
            return BW_OK;
        }
    }
    bw_diags_error(d, "file.missing", NULL, NULL, "there is no \"%s\"", path);
    return BW_E_IO;
}

void bwi_output_capture(bw_text *text, bw_diags *d)
{
    captured_text = text;
    captured_faults = d;
}

static void io_fault(bw_diags *d, const char *what, int error)
{
    bw_diags_error(d, "output.write", NULL, NULL, "%s cannot be written: %s", what,
                   strerror(error));
}

/* 0, or the errno of the write that failed. */
static int write_all(int fd, const char *data, size_t length)
{
    while (length > 0) {
        const ssize_t written = write(fd, data, length);
        if (written < 0 && errno != EINTR) {
            return errno;
        }
        if (written > 0) {
            data += written;
            length -= (size_t)written;
        }
    }
    return 0;
}

bw_status bwi_output_print(const bw_text *text, bw_diags *d)
{
    const char *string = bw_text_string(text);
    if (string == NULL) {
        return BW_E_MEMORY;
    }
    if (captured_text != NULL) {
        bw_text_add_bytes(captured_text, string, text->length);
        return BW_OK;
    }
    const int error = write_all(STDOUT_FILENO, string, text->length);
    if (error != 0) {
        io_fault(d, "standard output", error);
        return BW_E_IO;
    }
    return BW_OK;
}

void bwi_output_complain(const bw_diags *d)
{
    if (captured_faults != NULL) {
        for (size_t i = 0; i < d->count; i++) {
            bw_diags_add(captured_faults, &d->items[i]);
        }
        captured_faults->failed = captured_faults->failed || d->failed;
        return;
    }
    bw_text text = bw_text_new(d->arena);
    bw_diags_print(d, &text);
    if (bw_text_string(&text) == NULL || d->failed) {
        static const char words[] =
            "bolewright: out of memory while describing the faults\n";
        (void)write_all(STDERR_FILENO, words, sizeof words - 1);
    }
    if (text.length > 0) {
        (void)write_all(STDERR_FILENO, text.data, text.length);
    }
}

bool bwi_output_is_stream(const char *path)
{
    return path != NULL && strcmp(path, "-") == 0;
}

const char *bwi_output_name(const char *path)
{
    return strcmp(path, "-") == 0 ? "standard input" : path;
}

const char *bwi_output_short_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL ? bwi_output_name(path) : slash + 1;
}

static bool same_file(const struct stat *a, const char *path)
{
    struct stat b;
    return strcmp(path, "-") != 0 && stat(path, &b) == 0 && a->st_dev == b.st_dev &&
           a->st_ino == b.st_ino;
}

static bw_status refuse(bw_diags *d, const char *path, const char *why, const char *hint)
{
    bw_diags_error(d, "output.exists", NULL, hint, "%s is not written: %s", path, why);
    return BW_E_IO;
}

bw_status bwi_output_path_allowed(const char *path, bool force, const char *input,
                                  bw_diags *d)
{
    struct stat link, target;
    if (path == NULL || strcmp(path, "-") == 0 || lstat(path, &link) != 0) {
        return BW_OK; /* not there, or a fault that opening it will name */
    }
    if (stat(path, &target) == 0 && same_file(&target, input)) {
        return refuse(d, path, "it is the file that is read", "name another file");
    }
    if (!S_ISREG(link.st_mode)) {
        return refuse(d, path, "it exists and is no ordinary file",
                      "name an ordinary file, or \"-\" for standard output");
    }
    if (!force) {
        return refuse(d, path, "it exists",
                      "name another file, or add --force to replace it");
    }
    return BW_OK;
}

bw_status bwi_output_allowed(const bwi_options *options, const char *input, bw_diags *d)
{
    return bwi_output_path_allowed(options->value[BWI_OPT_JSON],
                                   options->value[BWI_OPT_FORCE] != NULL, input, d);
}

/* ---- whole files ---- */

/* A new file beside the final one (rename works within one file system only); -1: errno.
 */
static int open_part(bw_arena *arena, const char *path, const char **part)
{
    enum { TRIES = 100 };
    const char *slash = strrchr(path, '/');
    const int folder = slash == NULL ? 0 : (int)(slash - path) + 1;
    for (int i = 0; i < TRIES; i++) {
        *part = bw_arena_print(arena, "%.*s.bolewright-%ld-%d.part", folder, path,
                               (long)getpid(), i);
        if (*part == NULL) {
            errno = ENOMEM;
            return -1;
        }
        const int fd = open(*part, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (fd >= 0 || errno != EEXIST) {
            return fd;
        }
    }
    return -1;
}

/* A file system may notice a full disk only when the data really go there. */
static int fill_part(int fd, const bw_text *text)
{
    int error = write_all(fd, text->data, text->length);
    if (error == 0 && fsync(fd) != 0 && errno != EINVAL) {
        error = errno;
    }
    if (close(fd) != 0 && error == 0) {
        error = errno;
    }
    return error;
}

/* The new file keeps the access rights of the one it replaces. */
static int replace_file(const char *part, const char *path)
{
    struct stat old;
    if (stat(path, &old) == 0 && chmod(part, old.st_mode & 07777U) != 0) {
        return errno;
    }
    return rename(part, path) == 0 ? 0 : errno;
}

/* link refuses an existing file even if it appeared a moment ago; where the file system
 * has no links, a look before renaming must do. */
static int keep_file(const char *part, const char *path)
{
    struct stat old;
    if (link(part, path) == 0) {
        return unlink(part) == 0 ? 0 : errno;
    }
    if (errno != EPERM && errno != ENOTSUP && errno != ENOSYS && errno != EMLINK) {
        return errno;
    }
    if (lstat(path, &old) == 0) {
        return EEXIST;
    }
    return rename(part, path) == 0 ? 0 : errno;
}

bw_status bwi_output_file(const char *path, const bw_text *text, bool replace,
                          bw_diags *d)
{
    const char *part = NULL;
    if (bw_text_string(text) == NULL) {
        return BW_E_MEMORY;
    }
    const int fd = open_part(d->arena, path, &part);
    if (fd < 0) {
        io_fault(d, path, errno);
        return BW_E_IO;
    }
    int error = fill_part(fd, text);
    if (error == 0) {
        error = replace ? replace_file(part, path) : keep_file(part, path);
    }
    if (error != 0) {
        (void)unlink(part);
        io_fault(d, path, error);
        return BW_E_IO;
    }
    return BW_OK;
}

bw_status bwi_output_to(const char *path, const bw_text *text, bool replace, bw_diags *d)
{
    return path == NULL                 ? BW_OK
           : bwi_output_is_stream(path) ? bwi_output_print(text, d)
                                        : bwi_output_file(path, text, replace, d);
}

bw_status bwi_output_report(const bwi_options *options, const bw_text *text,
                            const bw_text *json, bw_diags *d)
{
    const char *path = options->value[BWI_OPT_JSON];
    BW_TRY(bwi_output_to(path, json, options->value[BWI_OPT_FORCE] != NULL, d));
    return bwi_output_is_stream(path) || options->value[BWI_OPT_QUIET] != NULL
               ? BW_OK
               : bwi_output_print(text, d);
}

int bwi_output_finish(bw_status status, const bw_diags *const *all)
{
    size_t errors = 0;
    for (; *all != NULL; all++) {
        errors += (*all)->errors;
        bwi_output_complain(*all);
    }
    const bool untold = errors == 0 || status == BW_E_MEMORY;
    if (status != BW_OK && untold && captured_faults == NULL) {
        static const char lead[] = "bolewright: ";
        const char *sentence = bw_status_text(status);
        (void)write_all(STDERR_FILENO, lead, sizeof lead - 1);
        (void)write_all(STDERR_FILENO, sentence, strlen(sentence));
        (void)write_all(STDERR_FILENO, "\n", 1);
    }
    return bw_status_exit(status);
}

int bwi_output_answer(bw_status status, const bw_diags *const *all, bool yes)
{
    enum { EXIT_NO = 1 };
    const int exit_status = bwi_output_finish(status, all);
    return status == BW_OK && !yes ? EXIT_NO : exit_status;
}
