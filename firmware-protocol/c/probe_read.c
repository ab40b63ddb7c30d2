#include "probe_read.h"

#include <string.h>

enum { HELLO_BYTES = 34, SAMPLES_BYTES = 11, TACH_BYTES = 5, BUTTON_BYTES = 9, STATUS_BYTES = 15 };
enum { PONG_BYTES = 13, ANSWER_BYTES = 3 }; /* bodies at their shortest, type included */

/* Converting an out-of-range unsigned value is left to the compiler by C99; this is not. */
static int16_t signed16(uint16_t value) { return (int16_t)(value < 0x8000 ? value : value - 0x10000); }

bool probe_read_hello(const uint8_t *body, uint8_t length, struct probe_hello *hello) {
    if (length < 3) {
        return false;
    }
    memset(hello, 0, sizeof *hello);
    hello->major = body[1];
    hello->minor = body[2];
    if (hello->major != PROBE_MAJOR) {
        return true;
    }
    if (length < HELLO_BYTES || body[33] > PROBE_MOST_NAME || length < HELLO_BYTES + body[33]) {
        return false;
    }
    hello->device = probe_get32(body + 3);
    hello->boot = probe_get16(body + 7);
    hello->sensor = body[9];
    hello->axes = body[10];
    hello->bits = body[11];
    hello->resolution = body[12];
    hello->full_scale = probe_get32(body + 13);
    hello->rate_num = probe_get32(body + 17);
    hello->rate_den = probe_get32(body + 21);
    hello->tick_hz = probe_get32(body + 25);
    hello->bandwidth = probe_get16(body + 29);
    hello->features = probe_get16(body + 31);
    hello->name_length = body[33];
    memcpy(hello->name, body + HELLO_BYTES, hello->name_length);
    return hello->axes >= 1 && hello->axes <= 3 && (hello->bits == 16 || hello->bits == 24) && hello->resolution >= 1 &&
           hello->resolution <= 24 && hello->full_scale != 0 && hello->rate_num != 0 && hello->rate_den != 0 &&
           hello->tick_hz != 0;
}

bool probe_read_samples(const uint8_t *body, uint8_t length, struct probe_samples *samples) {
    if (length < SAMPLES_BYTES) {
        return false;
    }
    samples->number = probe_get32(body + 1);
    samples->tick = probe_get32(body + 5);
    samples->axes = body[9] & PROBE_AXES_MASK;
    samples->wide = (body[9] & PROBE_WIDE) != 0;
    samples->at_limit = (body[9] & PROBE_AT_LIMIT) != 0;
    samples->count = body[10];
    samples->values = body + SAMPLES_BYTES;
    return samples->axes != 0 && samples->count != 0 &&
           samples->count * samples->axes * (samples->wide ? 3 : 2) <= length - SAMPLES_BYTES;
}

int32_t probe_value(const struct probe_samples *samples, uint8_t i) {
    const uint8_t *at = samples->values + i * (samples->wide ? 3 : 2);
    int32_t high;
    if (!samples->wide) {
        return signed16(probe_get16(at));
    }
    high = at[2] < 0x80 ? at[2] : at[2] - 0x100;
    return high * 0x10000 + probe_get16(at);
}

bool probe_read_tach(const uint8_t *body, uint8_t length, struct probe_tach *tach) {
    if (length < TACH_BYTES) {
        return false;
    }
    tach->number = probe_get16(body + 1);
    tach->missed = body[3];
    tach->count = body[4];
    tach->ticks = body + TACH_BYTES;
    return tach->count != 0 && tach->count <= PROBE_MOST_EDGES && tach->count * 4 <= length - TACH_BYTES;
}

uint32_t probe_edge(const struct probe_tach *tach, uint8_t i) { return probe_get32(tach->ticks + i * 4); }

bool probe_read_button(const uint8_t *body, uint8_t length, struct probe_button *button) {
    if (length < BUTTON_BYTES) {
        return false;
    }
    button->tick = probe_get32(body + 1);
    button->button = body[5];
    button->down = (body[6] & 1) != 0;
    button->presses = probe_get16(body + 7);
    return true;
}

bool probe_read_status(const uint8_t *body, uint8_t length, struct probe_status *status) {
    if (length < STATUS_BYTES) {
        return false;
    }
    status->tick = probe_get32(body + 1);
    status->dropped = probe_get32(body + 5);
    status->bad_commands = probe_get16(body + 9);
    status->temperature = signed16(probe_get16(body + 11));
    status->supply = probe_get16(body + 13);
    return true;
}

bool probe_read_pong(const uint8_t *body, uint8_t length, struct probe_pong *pong) {
    if (length < PONG_BYTES) {
        return false;
    }
    pong->id = probe_get32(body + 1);
    pong->received = probe_get32(body + 5);
    pong->sent = probe_get32(body + 9);
    return true;
}

bool probe_read_answer(const uint8_t *body, uint8_t length, struct probe_answer *answer) {
    if (length < ANSWER_BYTES) {
        return false;
    }
    answer->command = body[1];
    answer->result = body[2];
    return true;
}

bool probe_fields_fit(const uint8_t *body, uint8_t length) {
    struct probe_hello hello;
    struct probe_samples samples;
    struct probe_tach tach;
    switch (body[0]) {
    case PROBE_HELLO:
        return probe_read_hello(body, length, &hello);
    case PROBE_SAMPLES:
        return probe_read_samples(body, length, &samples);
    case PROBE_TACH:
        return probe_read_tach(body, length, &tach);
    case PROBE_BUTTON:
        return length >= BUTTON_BYTES;
    case PROBE_STATUS:
        return length >= STATUS_BYTES;
    case PROBE_PONG:
        return length >= PONG_BYTES;
    case PROBE_ANSWER:
        return length >= ANSWER_BYTES;
    default:
        return true;
    }
}
