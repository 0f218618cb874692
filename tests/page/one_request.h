/* one_request.h - a request out of any bytes, answered. */
#ifndef BW_TEST_ONE_REQUEST_H
#define BW_TEST_ONE_REQUEST_H

#include <stddef.h>
#include <stdint.h>

/* First line: method, path and arguments as "POST /working member=3"; the rest is the
 * body. Aborts if the answer breaks a promise of page.h. As libFuzzer calls it: 0. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
/* Answers given so far with the status. */
unsigned long one_request_count(int status);

#endif
