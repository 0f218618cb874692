/* SHA-256 against the examples of FIPS 180-4 and its predecessor FIPS 180-2, appendix B
 * (MEMORY), and against lengths around the edge of a block, COMPUTED with Python's
 * hashlib (an independent implementation, of OpenSSL). */
#include "bolewright/base.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

static void expect(const char *data, size_t length, const char *hex)
{
    char found[BW_SHA256_HEX];
    bw_sha256(data, length, found);
    assert_string_equal(found, hex);
}

static void printed_examples_come_out(void **state)
{
    (void)state;
    static const char two_blocks[] =
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
    expect("abc", 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(two_blocks, strlen(two_blocks),
           "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    expect("", 0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

static void a_million_letters_come_out(void **state)
{
    (void)state;
    static char letters[1000000];
    memset(letters, 'a', sizeof letters);
    expect(letters, sizeof letters,
           "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

static void lengths_around_a_block_come_out(void **state)
{
    (void)state;
    char bytes[120];
    for (size_t i = 0; i < sizeof bytes; i++) {
        bytes[i] = (char)(7 * i + 3);
    }
    static const struct {
        size_t length;
        const char *hex;
    } rows[] = {
        {55, "e7313d333c272e639f790978283f9eb392e843d0f29b7016828bb1daa4aac70b"},
        {56, "4324d65f3c103567f5589c710bc08f8523f929a9272e3af36fc968e52abc6c27"},
        {63, "81c80242132f230c3bd41b3e63bbcff16107339549214a99614ff26664625055"},
        {64, "39e3d7b6b5d075d37d053ad89b24b41bef4f3c29760c84447cab3f3be1882241"},
        {65, "aacca6ff74fdbb296d165a45cecfa04e5127bc008770fbbdd48006f2d2fae95e"},
        {119, "9ce7368e4daf32341631b492e80359dc9f594b48453cd0dd5bf0b19279cc177e"},
        {120, "7836b787757e95e58b3ca5aec90b1b004e8deba1e50e9675af9cabf1a13a04b5"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        expect(bytes, rows[i].length, rows[i].hex);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(printed_examples_come_out),
        cmocka_unit_test(a_million_letters_come_out),
        cmocka_unit_test(lengths_around_a_block_come_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
