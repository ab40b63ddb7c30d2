/*
 * The host's side of the probe protocol: what the bodies of a probe's frames say. Boards do not need it.
 *
 * Each reader takes a body as probe_take leaves it and answers whether its fields fit. It ignores bytes beyond the
 * fields of version 1.0. Pointers in the results point into the body.
 */
#ifndef PROBE_READ_H
#define PROBE_READ_H

#include "probe.h"

/** SAMPLES. */
struct probe_samples {
    uint32_t number;
    uint32_t tick;
    uint8_t axes;
    bool wide; /* 24-bit values, not 16-bit */
    bool at_limit;
    uint8_t count;
    const uint8_t *values;
};

/** TACH. */
struct probe_tach {
    uint16_t number;
    uint8_t missed;
    uint8_t count;
    const uint8_t *ticks;
};

/** BUTTON. */
struct probe_button {
    uint32_t tick;
    uint8_t button;
    bool down;
    uint16_t presses;
};

/** STATUS; temperature in 0.1 °C, supply in mV. */
struct probe_status {
    uint32_t tick;
    uint32_t dropped;
    uint16_t bad_commands;
    int16_t temperature;
    uint16_t supply;
};

/** PONG. */
struct probe_pong {
    uint32_t id;
    uint32_t received;
    uint32_t sent;
};

/** ANSWER. */
struct probe_answer {
    uint8_t command;
    uint8_t result;
};

/** Reads a HELLO of this major version; of another one only major and minor are read. */
bool probe_read_hello(const uint8_t *body, uint8_t length, struct probe_hello *hello);
bool probe_read_samples(const uint8_t *body, uint8_t length, struct probe_samples *samples);
bool probe_read_tach(const uint8_t *body, uint8_t length, struct probe_tach *tach);
bool probe_read_button(const uint8_t *body, uint8_t length, struct probe_button *button);
bool probe_read_status(const uint8_t *body, uint8_t length, struct probe_status *status);
bool probe_read_pong(const uint8_t *body, uint8_t length, struct probe_pong *pong);
bool probe_read_answer(const uint8_t *body, uint8_t length, struct probe_answer *answer);

/** Returns one value, counts; i runs sample by sample, in each x, y, z. */
int32_t probe_value(const struct probe_samples *samples, uint8_t i);

/** Returns the tick of one edge. */
uint32_t probe_edge(const struct probe_tach *tach, uint8_t i);

/** Whether the fields of a body fit its type; true for types that are not known. */
bool probe_fields_fit(const uint8_t *body, uint8_t length);

#endif
