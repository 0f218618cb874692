/* file.c - files and folders of tables: read whole, or refused with a reason. */
#include "file.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* A case is a few kilobytes; what is larger is another file, given by mistake. */
static const size_t most_bytes = (size_t)8 << 20;

static bw_status refuse(bw_diags *d, bw_status status, const char *id, const char *hint,
                        const char *message)
{
    bw_diags_error(d, id, NULL, hint, "%s", message);
    return status;
}

/* By errno: what a person can do about it differs. */
static bw_status refuse_opening(bw_diags *d, const char *path, int reason)
{
    if (reason == ENOENT || reason == ENOTDIR) {
        bw_diags_error(d, "file.missing", NULL,
                       "names count from the folder you are in; check the spelling",
                       "there is no \"%s\"", path);
    } else if (reason == EACCES || reason == EPERM) {
        bw_diags_error(d, "file.denied", NULL,
                       "ask its owner for the permission to read it",
                       "you may not read \"%s\"", path);
    } else {
        bw_diags_error(d, "file.read", NULL, NULL, "cannot read \"%s\": %s", path,
                       strerror(reason));
    }
    return BW_E_IO;
}

static bw_status refuse_large(bw_diags *d)
{
    return refuse(d, BW_E_INPUT, "file.large",
                  "is it the right file? a case is much smaller",
                  "the file is larger than 8 MiB");
}

/* Everything the stream gives, up to the limit. */
static bw_status read_stream(bw_arena *arena, FILE *stream, const char *path,
                             const char **text, bw_diags *d)
{
    bw_text all = bw_text_new(arena);
    char piece[16384];
    size_t length = 0;
    while ((length = fread(piece, 1, sizeof piece, stream)) > 0) {
        if (all.length + length > most_bytes) {
            return refuse_large(d);
        }
        if (memchr(piece, '\0', length) != NULL) {
            return refuse(d, BW_E_INPUT, "file.nul",
                          "is it the right file? a case is text",
                          "the file contains a zero byte, so it is not text");
        }
        bw_text_add_bytes(&all, piece, length);
    }
    if (ferror(stream)) {
        return refuse_opening(d, path, errno);
    }
    *text = bw_text_string(&all);
    return *text != NULL ? BW_OK : BW_E_MEMORY;
}

static bw_status read_named(bw_arena *arena, const char *path, const char **text,
                            bw_diags *d)
{
    struct stat about;
    if (stat(path, &about) != 0) {
        return refuse_opening(d, path, errno);
    }
    if (S_ISDIR(about.st_mode)) {
        return refuse(d, BW_E_IO, "file.folder", "name a file in it", "this is a folder");
    }
    if (S_ISREG(about.st_mode) && about.st_size > (off_t)most_bytes) {
        return refuse_large(d); /* before a byte is read */
    }
    FILE *stream = fopen(path, "rb");
    if (stream == NULL) {
        return refuse_opening(d, path, errno);
    }
    const bw_status status = read_stream(arena, stream, path, text, d);
    (void)fclose(stream); /* nothing was written */
    return status;
}

bw_status bw_input_read_file(bw_arena *arena, const char *path, const char **text,
                             bw_diags *d)
{
    *text = NULL;
    const bw_status status = strcmp(path, "-") == 0
                                 ? read_stream(arena, stdin, path, text, d)
                                 : read_named(arena, path, text, d);
    return d->failed ? BW_E_MEMORY : status;
}

/* ---- folders ---- */

static bool is_table(const char *name)
{
    static const char ending[] = ".json";
    const size_t length = strlen(name);
    return name[0] != '.' && length >= sizeof ending &&
           strcmp(name + length - (sizeof ending - 1), ending) == 0;
}

static int compare_paths(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

/* The order of readdir depends on the disk, so the paths are sorted. */
static bw_status list_tables(bw_arena *arena, DIR *stream, const char *folder,
                             bwi_paths *out)
{
    size_t capacity = 0;
    const struct dirent *entry = NULL;
    while ((entry = readdir(stream)) != NULL) {
        if (!is_table(entry->d_name)) {
            continue;
        }
        const char **items =
            bw_arena_grow(arena, out->items, out->count, &capacity, sizeof *items);
        const char *path = bw_arena_print(arena, "%s/%s", folder, entry->d_name);
        if (items == NULL || path == NULL) {
            return BW_E_MEMORY;
        }
        out->items = items;
        out->items[out->count++] = path;
    }
    if (out->count > 0) {
        qsort(out->items, out->count, sizeof *out->items, compare_paths);
    }
    return BW_OK;
}

bw_status bwi_folder_list(bw_arena *arena, const char *folder, bwi_paths *out,
                          bw_diags *d)
{
    *out = (bwi_paths){NULL, 0};
    DIR *stream = opendir(folder);
    if (stream == NULL && errno == ENOTDIR) {
        return refuse(d, BW_E_IO, "file.not_folder",
                      "name the folder that holds the tables", "this is not a folder");
    }
    if (stream == NULL) {
        return refuse_opening(d, folder, errno);
    }
    const bw_status status = list_tables(arena, stream, folder, out);
    (void)closedir(stream);
    if (status == BW_OK && out->count == 0) {
        return refuse(d, BW_E_IO, "file.no_tables",
                      "species tables are files named *.json",
                      "the folder holds no tables");
    }
    return status;
}
