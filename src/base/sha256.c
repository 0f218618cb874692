/* sha256.c - the Secure Hash Algorithm SHA-256 of FIPS 180-4 (2015),
 * sections 4.1.2, 5.1.1, 6.2 (MEMORY; its published examples are in
 * tests/base/test_sha256.c). Names of the standard: H state, W message schedule, a to h
 * working variables. */
#include "bolewright/base.h"

#include <stdint.h>
#include <string.h>

enum { BLOCK = 64, LENGTH_BYTES = 8 };

/* 4.2.2: first 32 bits of the fractions of the cube roots of the first 64 primes. */
static const uint32_t K[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4,
    0xab1c5ed5, 0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe,
    0x9bdc06a7, 0xc19bf174, 0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f,
    0x4a7484aa, 0x5cb0a9dc, 0x76f988da, 0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7,
    0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967, 0x27b70a85, 0x2e1b2138, 0x4d2c6dfc,
    0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85, 0xa2bfe8a1, 0xa81a664b,
    0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070, 0x19a4c116,
    0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7,
    0xc67178f2};

static uint32_t turn(uint32_t x, unsigned n)
{
    return (x >> n) | (x << (32U - n));
}

/* 6.2.2, step 1 */
static void schedule(const unsigned char *block, uint32_t W[64])
{
    for (int t = 0; t < 16; t++) {
        W[t] = (uint32_t)block[4 * t] << 24 | (uint32_t)block[4 * t + 1] << 16 |
               (uint32_t)block[4 * t + 2] << 8 | (uint32_t)block[4 * t + 3];
    }
    for (int t = 16; t < 64; t++) {
        const uint32_t x = W[t - 15], y = W[t - 2];
        W[t] = (turn(y, 17) ^ turn(y, 19) ^ y >> 10) + W[t - 7] +
               (turn(x, 7) ^ turn(x, 18) ^ x >> 3) + W[t - 16];
    }
}

/* 6.2.2, steps 2 to 4 */
static void compress(uint32_t H[8], const unsigned char *block)
{
    uint32_t W[64], v[8];
    schedule(block, W);
    memcpy(v, H, sizeof v);
    for (int t = 0; t < 64; t++) {
        const uint32_t a = v[0], e = v[4];
        const uint32_t T1 = v[7] + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) +
                            ((e & v[5]) ^ (~e & v[6])) + K[t] + W[t];
        const uint32_t T2 = (turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) +
                            ((a & v[1]) ^ (a & v[2]) ^ (v[1] & v[2]));
        memmove(v + 1, v, 7 * sizeof v[0]);
        v[4] += T1;
        v[0] = T1 + T2;
    }
    for (int i = 0; i < 8; i++) {
        H[i] += v[i];
    }
}

/* 5.1.1: a one bit, zeros, the length in bits; one block more or two. */
static void finish(uint32_t H[8], const unsigned char *rest, size_t n, uint64_t length)
{
    unsigned char last[2 * BLOCK] = {0};
    const size_t size = n + 1 + LENGTH_BYTES <= BLOCK ? BLOCK : 2 * BLOCK;
    memcpy(last, rest, n);
    last[n] = 0x80;
    for (size_t i = 0; i < LENGTH_BYTES; i++) {
        last[size - 1 - i] = (unsigned char)(length * 8 >> (8 * i));
    }
    for (size_t at = 0; at < size; at += BLOCK) {
        compress(H, last + at);
    }
}

void bw_sha256(const void *data, size_t length, char hex[BW_SHA256_HEX])
{
    static const char digits[] = "0123456789abcdef";
    uint32_t H[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                     0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19}; /* 5.3.3 */
    const unsigned char *at = data;
    size_t left = length;
    for (; left >= BLOCK; left -= BLOCK, at += BLOCK) {
        compress(H, at);
    }
    finish(H, at, left, length);
    for (int i = 0; i < BW_SHA256_HEX - 1; i++) {
        hex[i] = digits[H[i / 8] >> (28 - 4 * (i % 8)) & 0xFU];
    }
    hex[BW_SHA256_HEX - 1] = '\0';
}
