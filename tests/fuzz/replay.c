/* replay.c - every file of a corpus given to the target, in an ordinary test run.
 *
 *   replay FOLDER-OR-FILE...
 *
 * Prints how many inputs there were and which took longest. A folder without inputs is a
 * fault; so is an input that takes longer than it may. */
#include "target.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* Of processor time, with room for sanitizers and a busy machine. */
static const double most_seconds = 20.0;
enum { longest_path = 4096, most_bytes = 1 << 21 };

static size_t count;
static double longest;
static char slowest[longest_path];

static double seconds_now(void)
{
    struct timespec now;
    INSIST(clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now) == 0);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void replay_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    uint8_t *bytes = malloc(most_bytes);
    INSIST(file != NULL && bytes != NULL);
    const size_t size = fread(bytes, 1, most_bytes, file);
    INSIST(size < most_bytes && fclose(file) == 0);
    const double begun = seconds_now();
    (void)LLVMFuzzerTestOneInput(bytes, size);
    const double took = seconds_now() - begun;
    free(bytes);
    count++;
    if (took >= longest) {
        longest = took;
        (void)snprintf(slowest, sizeof slowest, "%s", path);
    }
}

static int by_name(const void *left, const void *right)
{
    return strcmp(*(char *const *)left, *(char *const *)right);
}

/* In the order of their names, so that a failure comes again at the same place. */
static void replay_folder(const char *folder, DIR *stream)
{
    enum { MOST = 1000 };
    char *names[MOST];
    size_t n = 0;
    const struct dirent *entry = NULL;
    while ((entry = readdir(stream)) != NULL) {
        if (entry->d_name[0] != '.') {
            INSIST(n < MOST);
            names[n++] = strdup(entry->d_name);
        }
    }
    INSIST(n > 0);
    qsort(names, n, sizeof names[0], by_name);
    for (size_t i = 0; i < n; i++) {
        char path[longest_path];
        INSIST(names[i] != NULL);
        (void)snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        (void)fprintf(stderr, "%s\n", path); /* the last one is the one that aborts */
        replay_file(path);
        free(names[i]);
    }
}

int main(int argc, char **argv)
{
    INSIST(argc > 1);
    for (int i = 1; i < argc; i++) {
        DIR *stream = opendir(argv[i]);
        if (stream == NULL) {
            replay_file(argv[i]);
        } else {
            replay_folder(argv[i], stream);
            (void)closedir(stream);
        }
    }
    printf("%zu inputs, the slowest %.2f s: %s\n", count, longest, slowest);
    return longest <= most_seconds ? 0 : 1;
}
