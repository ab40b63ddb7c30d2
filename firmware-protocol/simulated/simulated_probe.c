/*
 * Runs the example firmware in a simulated controller, with a simulated engine at its pins and its line on a
 * pseudo-terminal. README.md says how to use it.
 *
 * The controller is simavr's. It does not know the converter's hardware trigger, so that the compare match is led to
 * it here; and it knows only whole millivolts, so that the code which the data sheet promises is worked out here and
 * turned into a voltage that gives just this code.
 */
#define _XOPEN_SOURCE 600
#define _DEFAULT_SOURCE

#include <errno.h>
#include <fcntl.h>
#include <getopt.h>
#include <math.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include <avr_adc.h>
#include <avr_eeprom.h>
#include <avr_ioport.h>
#include <avr_uart.h>
#include <sim_avr.h>
#include <sim_elf.h>
#include <sim_interrupts.h>

enum {
    CLOCK_HZ = 16000000,
    STEP_CYCLES = 16000, /* between two looks at the outside: 1 ms */
    BYTE_CYCLES = 352,   /* 11 bits at 500000 Bd, as the simulated line also counts them when it sends */
    HOLD_CYCLES = 256,   /* the value is held two converter clocks of 128 cycles after the trigger */
    CONVERSION_CYCLES = 1660, /* just before simavr ends a conversion: 13 converter clocks */
    TIMER1_COMPB_VECTOR = 12,
    SUPPLY_MV = 5000,
    REFERENCE_MV = 3300,
    MOST_ORDERS = 16,
    QUEUE = 1 << 16 /* bytes: what a serial adapter and its driver would hold */
};

/* As in the firmware: half the converter's range is 5 g. */
static const double full_scale_mps2 = 5 * 9.80665;
static const double pi = 3.14159265358979323846;

struct line_order {
    double order;
    double rms_mps2;
    double phase_deg;
};

static struct line_order orders[MOST_ORDERS];
static int order_count;
static double rpm = 780;
static double noise_rms_mps2;
static uint64_t seed = 1;

static avr_t *avr;
static avr_irq_t *adc_trigger;
static avr_irq_t *adc_input;
static uint32_t adc_mv;
static avr_irq_t *tach_pin;
static avr_irq_t *button_pin;
static avr_irq_t *uart_input;
static uint64_t turns_done;
static bool tach_low;

static int pty = -1;
static uint8_t from_probe[QUEUE];
static size_t from_probe_count;
static uint8_t to_probe[QUEUE];
static size_t to_probe_count;
static bool feeding;
static unsigned long long bytes_out;
static unsigned long long bytes_lost;

static volatile sig_atomic_t stopped;

static void stop(int signal) {
    (void)signal;
    stopped = 1;
}

static void die(const char *what) {
    fprintf(stderr, "simulated_probe: %s: %s\n", what, strerror(errno));
    exit(3);
}

/* A uniform number in (0, 1]: a 64-bit xorshift generator [Marsaglia2003]. */
static double uniform(void) {
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return ((double)(seed >> 11) + 1) / 9007199254740992.0;
}

static double gaussian(void) { return sqrt(-2 * log(uniform())) * cos(2 * pi * uniform()); }

static double accel_mps2(double t_s) {
    double turns = rpm / 60 * t_s;
    double sum = noise_rms_mps2 > 0 ? noise_rms_mps2 * gaussian() : 0;
    for (int i = 0; i < order_count; i++) {
        sum += sqrt(2) * orders[i].rms_mps2 * cos(2 * pi * orders[i].order * turns + orders[i].phase_deg * pi / 180);
    }
    return sum;
}

/* simavr looks at the input only when the result is read. It may not see the new value before the conversion's end. */
static avr_cycle_count_t conversion_ends(avr_t *of, avr_cycle_count_t when, void *param) {
    (void)of, (void)when, (void)param;
    avr_raise_irq(adc_input, adc_mv);
    return 0;
}

/* A conversion starts: its value is that of the moment at which the converter holds it. */
static void conversion_starts(avr_irq_t *irq, uint32_t value, void *param) {
    double t_s = (double)(avr->cycle + HOLD_CYCLES) / CLOCK_HZ;
    double code = floor(512 * (1 + accel_mps2(t_s) / full_scale_mps2));
    (void)irq, (void)value, (void)param;
    code = code < 0 ? 0 : code > 1023 ? 1023 : code;
    adc_mv = ((uint32_t)code * REFERENCE_MV + 1022) / 1023;
    avr_cycle_timer_register(avr, CONVERSION_CYCLES, conversion_ends, NULL);
}

/* The compare match raises its flag: on the real controller this edge starts the converter. */
static void compare_matches(avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq, (void)param;
    if (value) {
        avr_raise_irq(adc_trigger, 1);
    }
}

/* The tach pin falls as each turn of the crank is completed, and rises a tenth of a turn later. */
static avr_cycle_count_t tach(avr_t *of, avr_cycle_count_t when, void *param) {
    double next_turns;
    (void)of, (void)when, (void)param;
    tach_low = !tach_low;
    avr_raise_irq(tach_pin, !tach_low);
    turns_done += !tach_low;
    next_turns = (double)turns_done + (tach_low ? 0.1 : 0);
    return (avr_cycle_count_t)llround(next_turns * 60 / rpm * CLOCK_HZ);
}

static avr_cycle_count_t release_button(avr_t *of, avr_cycle_count_t when, void *param) {
    (void)of, (void)when, (void)param;
    avr_raise_irq(button_pin, 1);
    return 0;
}

static void press_button(void) {
    avr_raise_irq(button_pin, 0);
    avr_cycle_timer_register_usec(avr, 100000, release_button, NULL);
}

static void byte_from_probe(avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq, (void)param;
    if (from_probe_count == QUEUE) {
        bytes_lost++;
        return;
    }
    from_probe[from_probe_count++] = (uint8_t)value;
}

/* The line delivers one byte per byte time. */
static avr_cycle_count_t feed_probe(avr_t *of, avr_cycle_count_t when, void *param) {
    (void)of, (void)param;
    if (to_probe_count == 0) {
        feeding = false;
        return 0;
    }
    avr_raise_irq(uart_input, to_probe[0]);
    memmove(to_probe, to_probe + 1, --to_probe_count);
    return when + BYTE_CYCLES;
}

/* Opens a pseudo-terminal and prints the path of its far end. */
static void open_line(FILE *announce) {
    struct termios raw;
    int far_end;
    pty = posix_openpt(O_RDWR | O_NOCTTY);
    if (pty < 0 || grantpt(pty) != 0 || unlockpt(pty) != 0) {
        die("no pseudo-terminal");
    }
    far_end = open(ptsname(pty), O_RDWR | O_NOCTTY);
    if (far_end < 0 || tcgetattr(far_end, &raw) != 0) {
        die(ptsname(pty));
    }
    cfmakeraw(&raw);
    tcsetattr(far_end, TCSANOW, &raw);
    /* Closed again: from now on a hang-up tells that nobody listens. */
    close(far_end);
    fcntl(pty, F_SETFL, O_NONBLOCK);
    fprintf(announce, "%s\n", ptsname(pty));
    fflush(announce);
}

/* Moves bytes between line and pseudo-terminal. What is sent while nobody has it open is lost, as on a real port. */
static void move_bytes(bool wait) {
    struct pollfd state = {.fd = pty, .events = POLLIN};
    ssize_t n;
    poll(&state, 1, 0);
    if (state.revents & POLLHUP) {
        bytes_lost += from_probe_count;
        from_probe_count = 0;
        return;
    }
    while (from_probe_count > 0) {
        n = write(pty, from_probe, from_probe_count);
        if (n > 0) {
            bytes_out += (unsigned long long)n;
            from_probe_count -= (size_t)n;
            memmove(from_probe, from_probe + n, from_probe_count);
        } else if (!wait || stopped) {
            break;
        } else {
            struct pollfd room = {.fd = pty, .events = POLLOUT};
            poll(&room, 1, 100);
            if (room.revents & POLLHUP) {
                break;
            }
        }
    }
    if (state.revents & POLLIN) {
        n = read(pty, to_probe + to_probe_count, QUEUE - to_probe_count);
        if (n > 0) {
            to_probe_count += (size_t)n;
            if (!feeding) {
                feeding = true;
                avr_cycle_timer_register(avr, BYTE_CYCLES, feed_probe, NULL);
            }
        }
    }
}

/* Obeys lines on standard input. Its end is the end. */
static void read_orders(void) {
    static char text[64];
    static size_t used;
    struct pollfd state = {.fd = STDIN_FILENO, .events = POLLIN};
    char byte;
    while (poll(&state, 1, 0) > 0) {
        if (read(STDIN_FILENO, &byte, 1) <= 0) {
            stopped = 1;
            return;
        }
        if (byte != '\n') {
            text[used] = byte;
            used += used < sizeof text - 1;
            continue;
        }
        text[used] = 0;
        used = 0;
        if (strcmp(text, "press") == 0) {
            press_button();
        } else if (strcmp(text, "quit") == 0) {
            stopped = 1;
        } else {
            fprintf(stderr, "simulated_probe: \"%s\" on standard input: known are press and quit\n", text);
        }
    }
}

static double seconds_now(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void sleep_until(double wanted_s) {
    struct timespec until = {.tv_sec = (time_t)wanted_s};
    until.tv_nsec = (long)((wanted_s - (double)until.tv_sec) * 1e9);
    clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &until, NULL);
}

/* The simulated controller sleeps: its time jumps to the next event, and the pace is kept elsewhere. */
static void no_sleep(avr_t *of, avr_cycle_count_t cycles) { (void)of, (void)cycles; }

static void quiet(avr_t *of, const int level, const char *format, va_list list) {
    (void)of;
    if (level <= LOG_ERROR) {
        vfprintf(stderr, format, list);
    }
}

/* Looks at the head of the file: simavr falls over files for another machine. */
static bool is_firmware(const char *path) {
    static const uint8_t magic[4] = {0x7F, 'E', 'L', 'F'};
    uint8_t head[20];
    FILE *file = fopen(path, "rb");
    size_t got;
    if (!file) {
        die(path);
    }
    got = fread(head, 1, sizeof head, file);
    fclose(file);
    return got == sizeof head && memcmp(head, magic, sizeof magic) == 0 && head[18] == 83 && head[19] == 0; /* EM_AVR */
}

static void start_controller(const char *path, uint16_t boot, uint32_t device) {
    static elf_firmware_t firmware;
    uint8_t cells[6];
    avr_eeprom_desc_t kept = {.ee = cells, .offset = 0, .size = sizeof cells};
    uint32_t flags = 0;
    avr_irq_t *adc;
    avr_global_logger_set(quiet);
    if (!is_firmware(path) || elf_read_firmware(path, &firmware) != 0) {
        fprintf(stderr, "simulated_probe: %s is no ELF file for an AVR controller; make avr builds one\n", path);
        exit(2);
    }
    avr = avr_make_mcu_by_name("atmega328p");
    if (!avr) {
        fprintf(stderr, "simulated_probe: this simavr does not know the atmega328p\n");
        exit(3);
    }
    avr_init(avr);
    avr_load_firmware(avr, &firmware);
    avr->frequency = CLOCK_HZ;
    avr->vcc = avr->avcc = SUPPLY_MV;
    avr->aref = REFERENCE_MV;
    avr->log = LOG_ERROR;
    avr->sleep = no_sleep;

    /* The firmware counts a start before it says its number. */
    cells[0] = (uint8_t)(boot - 1);
    cells[1] = (uint8_t)((boot - 1) >> 8);
    for (int i = 0; i < 4; i++) {
        cells[2 + i] = (uint8_t)((device ? device : 0xFFFFFFFF) >> (8 * i));
    }
    avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &kept);

    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    uart_input = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), byte_from_probe, NULL);

    adc = avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, 0);
    adc_input = adc + ADC_IRQ_ADC0;
    adc_trigger = adc + ADC_IRQ_IN_TRIGGER;
    avr_irq_register_notify(adc + ADC_IRQ_OUT_TRIGGER, conversion_starts, NULL);
    avr_irq_register_notify(avr_get_interrupt_irq(avr, TIMER1_COMPB_VECTOR) + AVR_INT_IRQ_PENDING, compare_matches,
                            NULL);

    tach_pin = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 0);
    button_pin = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 2);
    avr_raise_irq(tach_pin, 1);
    avr_raise_irq(button_pin, 1);
    turns_done = 1;
    if (rpm > 0) {
        avr_cycle_timer_register(avr, (avr_cycle_count_t)llround(60 / rpm * CLOCK_HZ), tach, NULL);
    }
}

static const char help[] =
    "usage: simulated_probe [options] PROBE.elf\n"
    "\n"
    "Prints the path of a pseudo-terminal and plays a probe on it until standard input ends, says quit,\n"
    "or SIGTERM comes.\n"
    "A line \"press\" on standard input presses the button for 0.1 s.\n"
    "\n"
    "  --rpm N            crank speed, turns per minute; 0: standing (780)\n"
    "  --order K:A[:P]    a component at K per crank turn: rms A m/s2 (its peak is 1.414 A), phase P degrees\n"
    "                     of its cosine at power-up and, for a whole K, at each tach pulse (0)\n"
    "  --noise A          white Gaussian noise, rms A m/s2, over the converter's whole band (0)\n"
    "  --seed N           of the noise (1)\n"
    "  --boot N           start number that the board says, 1 to 65535 (from the process number)\n"
    "  --device N         serial number that the board says, 0: none (0)\n"
    "  --fast             as fast as possible, waiting for the reader, instead of in real time\n"
    "  --seconds S        ends after S simulated seconds\n";

static double parse(const char *option, const char *text, double least, double most) {
    char *end;
    double value = strtod(text, &end);
    if (end == text || *end != 0 || !(value >= least && value <= most)) {
        fprintf(stderr, "simulated_probe: --%s %s: need a number from %g to %g\n", option, text, least, most);
        exit(2);
    }
    return value;
}

static void parse_order(const char *text) {
    struct line_order *o = &orders[order_count];
    int used = 0, more = 0;
    if (order_count == MOST_ORDERS) {
        fprintf(stderr, "simulated_probe: more than %d --order\n", MOST_ORDERS);
        exit(2);
    }
    bool sound = sscanf(text, "%lf:%lf%n", &o->order, &o->rms_mps2, &used) == 2;
    if (sound && text[used] != 0) {
        sound = sscanf(text + used, ":%lf%n", &o->phase_deg, &more) == 1 && text[used + more] == 0;
    }
    if (!sound || !(o->order > 0 && o->rms_mps2 >= 0)) {
        fprintf(stderr, "simulated_probe: --order %s: need K:A or K:A:P, as in 5.997:0.8\n", text);
        exit(2);
    }
    order_count++;
}

int main(int argc, char **argv) {
    static const struct option options[] = {
        {"rpm", 1, NULL, 'r'},    {"order", 1, NULL, 'o'}, {"noise", 1, NULL, 'n'},   {"seed", 1, NULL, 's'},
        {"boot", 1, NULL, 'b'},   {"device", 1, NULL, 'd'}, {"fast", 0, NULL, 'f'},   {"seconds", 1, NULL, 't'},
        {"help", 0, NULL, 'h'},   {NULL, 0, NULL, 0}};
    bool fast = false;
    double seconds = INFINITY, start_s, worst_late_s = 0;
    uint16_t boot = (uint16_t)(1 + getpid() % 65535);
    uint32_t device = 0;
    FILE *announce;
    int option, which;
    uint64_t target = 0;
    while ((option = getopt_long(argc, argv, "", options, &which)) != -1) {
        const char *name = option == '?' ? "" : options[which].name;
        switch (option) {
        case 'r':
            rpm = parse(name, optarg, 0, 30000);
            break;
        case 'o':
            parse_order(optarg);
            break;
        case 'n':
            noise_rms_mps2 = parse(name, optarg, 0, 1000);
            break;
        case 's':
            seed = (uint64_t)parse(name, optarg, 1, 1e9) * 0x9E3779B97F4A7C15u;
            break;
        case 'b':
            boot = (uint16_t)parse(name, optarg, 1, 65535);
            break;
        case 'd':
            device = (uint32_t)parse(name, optarg, 0, 4294967294.0);
            break;
        case 'f':
            fast = true;
            break;
        case 't':
            seconds = parse(name, optarg, 0, 1e9);
            break;
        case 'h':
            fputs(help, stdout);
            return 0;
        default:
            return 2;
        }
    }
    if (optind != argc - 1) {
        fputs(help, stderr);
        return 2;
    }
    signal(SIGTERM, stop);
    signal(SIGINT, stop);

    /* simavr prints to standard output as it likes; only the path may stand there. */
    announce = fdopen(dup(STDOUT_FILENO), "w");
    dup2(STDERR_FILENO, STDOUT_FILENO);
    start_controller(argv[optind], boot, device);
    open_line(announce);
    fclose(announce);

    start_s = seconds_now();
    while (!stopped && (double)avr->cycle < seconds * CLOCK_HZ) {
        target += STEP_CYCLES;
        while (avr->cycle < target) {
            int state = avr_run(avr);
            if (state == cpu_Done || state == cpu_Crashed) {
                fprintf(stderr, "simulated_probe: the firmware has stopped after %.3f s\n",
                        (double)avr->cycle / CLOCK_HZ);
                return 1;
            }
        }
        move_bytes(fast);
        read_orders();
        if (!fast) {
            double wanted_s = start_s + (double)target / CLOCK_HZ;
            double late_s = seconds_now() - wanted_s;
            worst_late_s = late_s > worst_late_s ? late_s : worst_late_s;
            if (late_s < 0) {
                sleep_until(wanted_s);
            }
        }
    }
    fprintf(stderr,
            "simulated_probe: %.3f s simulated in %.3f s, %.3f s of processor; %llu bytes sent, %llu lost; at most "
            "%.1f ms late\n",
            (double)avr->cycle / CLOCK_HZ, seconds_now() - start_s, (double)clock() / CLOCKS_PER_SEC, bytes_out,
            bytes_lost, worst_late_s * 1e3);
    return 0;
}
