/*
 * Example probe for an ATmega328P at 16 MHz: an analog accelerometer, a tach input and a button.
 * README.md has the wiring; ../protocol.md has what goes over the line.
 *
 * Everything hangs on Timer 1, which counts 2 MHz and starts anew after each sample period:
 *
 *   its compare match B starts the converter by hardware, so that no interrupt can make a sample late;
 *   the interrupt of the same match fetches the value of the conversion before and moves tick_base on;
 *   its input capture stores the counter when a tach edge comes, so that edges and samples share one clock.
 *
 * Interrupts fill blocks of samples and banks of edges. The main loop turns one of them at a time into a frame, which
 * the transmit interrupt hands to the line byte by byte; then it sleeps until the next interrupt.
 */
#include "../c/probe.h"

#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <string.h>
#include <util/atomic.h>

#if F_CPU != 16000000UL
#error "the constants here are for 16 MHz"
#endif

#define TICK_HZ 2000000UL /* F_CPU / 8 */

/* With U2X0 the line runs at F_CPU / 8 / (UBRR_VALUE + 1): 3 is 500000 Bd without error. */
#ifndef UBRR_VALUE
#define UBRR_VALUE 3
#endif

/* The tick at power-up; a test lets the count begin shortly before it wraps. */
#ifndef FIRST_TICK
#define FIRST_TICK 0
#endif

/*
 * The accelerometer gives half its supply at rest and a tenth of it more for each g, and its supply is also the
 * converter's reference. Half the range is thus 5 g whatever the supply is: 5 × 9.80665 m/s², in 0.0001 m/s².
 */
#define FULL_SCALE 490333UL
#define BANDWIDTH_HZ 1600 /* of sensor and filter capacitor, -3 dB */

enum {
    SHORTEST_PERIOD = 250, /* ticks, 8000 Hz: a triggered conversion takes 13.5 converter clocks of 8 us, 216 ticks */
    LONGEST_PERIOD = 20000, /* ticks, 100 Hz */
    FIRST_PERIOD = 250,

    /* The value is held two converter clocks after the trigger; three CPU clocks before them are less than a tick. */
    HOLD_TICKS = 32,

    MIDDLE_CODE = 512,
    LAST_CODE = 1023,
    SPARE_BITS = 6, /* 10 bits stand at the top of 16 */

    BLOCKS = 4, /* a power of two */
    BLOCK_SAMPLES = 64,
    BANK_EDGES = 16,
    RECEIVED = 64, /* bytes, a power of two */
    STAMPS = 16    /* a power of two: as many frame ends as RECEIVED can hold, at 5 bytes each */
};

#define BLOCK_TICKS (TICK_HZ / 20)       /* a block lasts at most this, 50 ms */
#define EDGE_WAIT_TICKS (TICK_HZ / 10)   /* an edge waits at most this for company; the protocol allows 0.25 s */
#define DEBOUNCE_TICKS (TICK_HZ / 50)    /* the button has to stand still this long, 20 ms */

/* Kept over power loss, from the first cell on. Blank cells read as ones. */
static struct {
    uint16_t boot;
    uint32_t device; /* a serial number may be written here with a programmer */
} stored EEMEM = {0xFFFF, 0xFFFFFFFF};

struct block {
    uint32_t number;
    uint32_t tick;
    uint8_t count;
    bool at_limit;
    int16_t values[BLOCK_SAMPLES];
};

struct bank {
    uint8_t count;
    uint16_t missed; /* edges after the last one here that found no room */
    uint32_t ticks[BANK_EDGES];
};

/* The clock. tick_base is the tick at which the counter last started anew, once its interrupt has run. */
static volatile uint32_t tick_base = FIRST_TICK;
static volatile uint16_t period = FIRST_PERIOD;
static volatile uint16_t next_period = FIRST_PERIOD;

/* Samples. The interrupt owns blocks[filling]; `ready` blocks before it are the main loop's. */
static struct block blocks[BLOCKS];
static uint8_t filling;
static volatile uint8_t ready;
static uint8_t block_samples = BLOCK_SAMPLES;
static volatile bool sampling;
static uint32_t next_number;
static volatile uint32_t dropped;

/* Edges. The interrupt owns banks[edge_bank]. */
static struct bank banks[2];
static volatile uint8_t edge_bank;

/* The line in. The interrupt moves received_in and stamps_in, the main loop the others. */
static uint8_t received[RECEIVED];
static uint32_t stamps[STAMPS];
static volatile uint8_t received_in;
static uint8_t received_out;
static uint8_t stamps_in;
static uint8_t stamps_out;

/* The line out. While `sending`, the transmit interrupt owns `out`. */
static struct probe_encoder out;
static uint8_t out_length;
static uint8_t out_sent;
static volatile bool sending;

/* What the main loop still has to send, and what it knows. */
static struct probe_decoder in;
static bool pong_waits;
static uint32_t pong_id;
static uint32_t pong_received;
static bool answer_waits;
static uint8_t answer_command;
static uint8_t answer_result;
static bool hello_waits = true;
static bool status_runs;
static uint32_t status_tick;
static uint16_t bad_commands;
static uint16_t edges_seen;
static uint16_t edges_missed;
static uint32_t edges_tick;
static bool tach_was_last;
static uint16_t boot;
static uint32_t device;

static bool button_down;
static bool button_moves;
static bool button_waits;
static uint32_t button_tick;
static uint16_t presses;

/*
 * Widens a counter value of Timer 1 to 32 bits. Interrupts are off. The counter may have started anew while the
 * interrupt that says so still waits: its flag is up, and a value from after that is small.
 */
static uint32_t widen(uint16_t counter) {
    uint32_t tick = tick_base + counter;
    if ((TIFR1 & _BV(OCF1B)) && counter < period / 2) {
        tick += period;
    }
    return tick;
}

static uint32_t tick_now(void) {
    uint32_t tick;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        tick = widen(TCNT1);
    }
    return tick;
}

/* A sample period is over: the counter has started anew, and the converter with it. */
ISR(TIMER1_COMPB_vect) {
    struct block *block = &blocks[filling];
    uint16_t code = ADC; /* of the conversion that the match before this one has started */
    uint32_t tick = tick_base + HOLD_TICKS;
    tick_base += period;
    if (next_period != period) {
        period = next_period;
        OCR1A = period - 1;
        OCR1B = period - 1;
    }
    if (!sampling) {
        return;
    }
    if (ready == BLOCKS) {
        dropped++;
        next_number++;
        return;
    }
    if (block->count == 0) {
        block->number = next_number;
        block->tick = tick;
        block->at_limit = false;
    }
    block->values[block->count] = (int16_t)((code - MIDDLE_CODE) * (1 << SPARE_BITS));
    block->count++;
    block->at_limit |= code == 0 || code == LAST_CODE;
    next_number++;
    if (block->count == block_samples) {
        filling = (uint8_t)((filling + 1) % BLOCKS);
        ready++;
    }
}

/* A tach edge. Once one is missed, all are until the bank is emptied: those missed stand between two frames. */
ISR(TIMER1_CAPT_vect) {
    struct bank *bank = &banks[edge_bank];
    uint32_t tick = widen(ICR1);
    if (!sampling) {
        return;
    }
    if (bank->count == BANK_EDGES) {
        bank->missed++;
    } else {
        bank->ticks[bank->count] = tick;
        bank->count++;
    }
}

/* A byte that finds no room is lost; the checksum of its frame tells. */
ISR(USART_RX_vect) {
    static uint8_t before;
    uint8_t byte = UDR0;
    if ((uint8_t)(received_in - received_out) == RECEIVED) {
        return;
    }
    received[received_in % RECEIVED] = byte;
    received_in++;
    if (byte == 0 && before != 0) {
        stamps[stamps_in % STAMPS] = widen(TCNT1);
        stamps_in++;
    }
    before = byte;
}

ISR(USART_UDRE_vect) {
    UDR0 = out.wire[out_sent];
    out_sent++;
    if (out_sent == out_length) {
        UCSR0B &= (uint8_t)~_BV(UDRIE0);
        sending = false;
    }
}

static void send(uint8_t length) {
    out_length = length;
    out_sent = 0;
    sending = true;
    UCSR0B |= _BV(UDRIE0);
}

/* Forgets all samples and edges; both are numbered from 0 again. */
static void restart(bool then_sampling) {
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        for (uint8_t i = 0; i < BLOCKS; i++) {
            blocks[i].count = 0;
        }
        filling = 0;
        ready = 0;
        next_number = 0;
        dropped = 0;
        memset(banks, 0, sizeof banks);
        sampling = then_sampling;
    }
    edges_seen = 0;
    edges_missed = 0;
    edges_tick = status_tick = tick_now();
    status_runs = then_sampling;
}

/* Changes the rate if the clock divides to it exactly. Takes at most one sample period of the old rate. */
static uint8_t set_rate(uint32_t num, uint32_t den) {
    uint64_t ticks = (uint64_t)TICK_HZ * den;
    uint16_t wanted;
    bool done = false;
    if (sampling) {
        return PROBE_NOT_NOW;
    }
    if (num == 0 || ticks % num != 0 || ticks / num < SHORTEST_PERIOD || ticks / num > LONGEST_PERIOD) {
        return PROBE_CANNOT;
    }
    wanted = (uint16_t)(ticks / num);
    block_samples = BLOCK_TICKS / wanted < BLOCK_SAMPLES ? (uint8_t)(BLOCK_TICKS / wanted) : BLOCK_SAMPLES;
    while (!done) {
        ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
            next_period = wanted; /* the interrupt takes it at the end of a period, so that no tick is lost */
            done = period == wanted;
        }
    }
    return PROBE_DONE;
}

static void obey(const struct probe_command *command, uint32_t received_tick) {
    if (command->type == PROBE_PING) {
        pong_waits = true;
        pong_id = command->id;
        pong_received = received_tick;
        return;
    }
    if (command->type == PROBE_IDENTIFY) {
        hello_waits = true;
        return;
    }
    answer_waits = true;
    answer_command = command->type;
    answer_result = PROBE_DONE;
    if (command->type == PROBE_RATE) {
        answer_result = set_rate(command->rate_num, command->rate_den);
        hello_waits |= answer_result == PROBE_DONE;
    } else {
        restart(command->type == PROBE_START);
        hello_waits |= command->type == PROBE_START;
    }
}

/* Takes bytes from the line until a command has to be answered before the next one can be taken. */
static void listen(void) {
    static uint8_t before;
    while (!pong_waits && !answer_waits && received_out != received_in) {
        uint8_t byte = received[received_out % RECEIVED];
        enum probe_event event = probe_take(&in, byte);
        struct probe_command command;
        uint32_t tick = stamps[stamps_out % STAMPS];
        received_out++;
        if (byte == 0 && before != 0) {
            stamps_out++;
        }
        before = byte;
        if (event == PROBE_FRAME) {
            switch (probe_read_command(&in, &command)) {
            case PROBE_COMMAND:
                obey(&command, tick);
                break;
            case PROBE_UNKNOWN_COMMAND:
                answer_waits = true;
                answer_command = command.type;
                answer_result = PROBE_UNKNOWN;
                break;
            case PROBE_BAD_COMMAND:
                bad_commands++;
                break;
            case PROBE_NOT_FOR_PROBES:
                break;
            }
        } else if (event != PROBE_MORE && event != PROBE_EMPTY) {
            bad_commands++;
        }
    }
}

/* The button pulls its pin down. A change counts once it has lasted; its tick is when it began to last. */
static void watch_button(void) {
    bool down = !(PIND & _BV(PD2));
    uint32_t now = tick_now();
    if (down == button_down || button_waits) {
        button_moves = false;
    } else if (!button_moves) {
        button_moves = true;
        button_tick = now;
    } else if (now - button_tick >= DEBOUNCE_TICKS) {
        button_moves = false;
        button_waits = true;
        button_down = down;
        presses = (uint16_t)(presses + down);
    }
}

static uint8_t write_hello(void) {
    static const char name[] = "Tickover example probe";
    struct probe_hello hello = {
        .major = PROBE_MAJOR,
        .minor = PROBE_MINOR,
        .device = device,
        .boot = boot,
        .sensor = PROBE_ANALOG_MEMS,
        .axes = 1,
        .bits = 16,
        .resolution = 16 - SPARE_BITS,
        .full_scale = FULL_SCALE,
        .rate_num = TICK_HZ,
        .rate_den = next_period,
        .tick_hz = TICK_HZ,
        .bandwidth = BANDWIDTH_HZ,
        .features = PROBE_HAS_TACH | PROBE_HAS_BUTTON | PROBE_FOLLOWS_TICKS,
        .name_length = sizeof name - 1,
    };
    memcpy(hello.name, name, sizeof name);
    return probe_write_hello(&out, &hello);
}

/* Writes the edges that wait, if they are many or have waited long. Returns 0 if there is nothing to send. */
static uint8_t write_tach(uint32_t now) {
    struct bank *bank = &banks[edge_bank];
    bool due = false;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        if (bank->count == 0) {
            edges_tick = now;
        } else if (bank->count >= BANK_EDGES / 2 || now - edges_tick >= EDGE_WAIT_TICKS) {
            due = true;
            edge_bank ^= 1; /* from here on the interrupt fills the other bank */
        }
    }
    if (!due) {
        return 0;
    }
    edges_tick = now;
    edges_seen = (uint16_t)(edges_seen + edges_missed);
    probe_begin_tach(&out, edges_seen, edges_missed < 255 ? (uint8_t)edges_missed : 255, bank->count);
    for (uint8_t i = 0; i < bank->count; i++) {
        probe_put32(&out, bank->ticks[i]);
    }
    edges_seen = (uint16_t)(edges_seen + bank->count);
    edges_missed = bank->missed;
    bank->count = 0;
    bank->missed = 0;
    return probe_end(&out);
}

static uint8_t write_samples(void) {
    struct block *block;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        block = &blocks[(uint8_t)(filling - ready) % BLOCKS];
    }
    probe_begin_samples(&out, block->number, block->tick, (uint8_t)(1 | (block->at_limit ? PROBE_AT_LIMIT : 0)),
                        block->count);
    for (uint8_t i = 0; i < block->count; i++) {
        probe_put16(&out, (uint16_t)block->values[i]);
    }
    block->count = 0;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        ready--;
    }
    return probe_end(&out);
}

/* Hands the most urgent frame to the line. The answers come first, samples last: these can wait in their blocks. */
static void speak(void) {
    uint32_t now = tick_now();
    uint32_t lost;
    uint8_t length = 0;
    if (pong_waits) {
        pong_waits = false;
        length = probe_write_pong(&out, pong_id, pong_received, now);
    } else if (answer_waits) {
        answer_waits = false;
        length = probe_write_answer(&out, answer_command, answer_result);
    } else if (hello_waits) {
        hello_waits = false;
        length = write_hello();
    } else if (button_waits) {
        button_waits = false;
        length = probe_write_button(&out, button_tick, 0, button_down, presses);
    } else if (status_runs && now - status_tick >= TICK_HZ) {
        status_tick += TICK_HZ;
        ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
            lost = dropped;
        }
        length = probe_write_status(&out, now, lost, bad_commands, PROBE_NO_TEMPERATURE, PROBE_NO_SUPPLY);
    } else {
        /* In turn when both wait: on a slow line either would keep the other away for ever. */
        if (!tach_was_last || ready == 0) {
            length = write_tach(now);
        }
        tach_was_last = length != 0;
        if (length == 0 && ready != 0) {
            length = write_samples();
        }
    }
    if (length != 0) {
        send(length);
    }
}

/* Counts the starts of the board, 0 left out: that would mean that it does not know. */
static void count_boot(void) {
    boot = (uint16_t)(eeprom_read_word(&stored.boot) + 1);
    if (boot == 0) {
        boot = 1;
    }
    eeprom_write_word(&stored.boot, boot);
    device = eeprom_read_dword(&stored.device);
    if (device == 0xFFFFFFFF) {
        device = 0;
    }
}

int main(void) {
    count_boot();
    probe_reset(&in);

    PORTB |= _BV(PB0); /* pull-ups: an open tach or button input must not float */
    PORTD |= _BV(PD2);

    UBRR0 = UBRR_VALUE;
    UCSR0A = _BV(U2X0);
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
    UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
    UDR0 = 0; /* ends whatever the line has carried so far */

    ADMUX = 0; /* channel 0 against AREF, to which the sensor's supply is wired; never choose another reference */
    DIDR0 = _BV(ADC0D);
    ADCSRB = _BV(ADTS2) | _BV(ADTS0);                                          /* Timer 1, compare match B */
    ADCSRA = _BV(ADEN) | _BV(ADATE) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0); /* 125 kHz */

    OCR1A = FIRST_PERIOD - 1;
    OCR1B = FIRST_PERIOD - 1;
    TIMSK1 = _BV(OCIE1B) | _BV(ICIE1);
    TCCR1A = 0;
    TCCR1B = _BV(ICNC1) | _BV(WGM12) | _BV(CS11); /* falling edges, four equal readings; top is OCR1A; 2 MHz */

    set_sleep_mode(SLEEP_MODE_IDLE);
    sei();
    for (;;) {
        listen();
        watch_button();
        if (!sending) {
            speak();
        }
        sleep_mode(); /* one that comes just before is not lost: the next interrupt is a sample period away at most */
    }
}
