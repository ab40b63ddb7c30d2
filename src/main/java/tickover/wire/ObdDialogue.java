package tickover.wire;

import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import tickover.unit.HostNanos;
import tickover.wire.ObdReading.Quantity;
import tickover.wire.ObdReply.Trouble;

/**
 * The talk with a serial adapter that takes text commands, at the car's OBD socket: wakes it, has
 * it find the bus, and asks for engine speed as fast as it answers. {@code docs/wire.md} has the
 * states.
 *
 * <p>Pure: bytes and times come in, commands and readings go to the sink. Whatever comes or stays
 * away, a command goes out again within 13 s, provided that {@link #tick} is called at least twice
 * a second.
 *
 * <p>Thread: one.
 */
public final class ObdDialogue {
    /** Longest time between two commands, s. */
    static final double MOST_PAUSE_S = 13;

    /** An adapter gives up a search for the bus by itself after some 10 s; from memory. */
    private static final double SEARCH_S = 12;

    private static final double WAKE_S = 3;
    private static final double REPLY_S = 1.5;
    private static final double VIN_S = 5;
    private static final double RETRY_S = 1;

    /** An adapter that says nothing for so long after a carriage return owes nothing more. */
    private static final double QUIET_S = 0.2;

    private static final double FIRST_BACK_OFF_S = 0.05;
    private static final double EXTRA_EVERY_S = 1;
    private static final int MOST_MISSES = 5;
    private static final int MOST_TIMEOUTS = 3;
    private static final int MOST_VIN_TRIES = 2;
    private static final String FIND = "0100";
    private static final String VIN = "0902";

    /** Echo, line feeds, blanks and headers off; adaptive timing; any protocol. */
    private static final List<String> SET_UP =
            List.of("ATE0", "ATL0", "ATS0", "ATH0", "ATAT1", "ATSP0");

    /**
     * What to ask for besides engine speed.
     *
     * @param extras asked in turn, one a second, where the car supports it
     * @param vin whether to ask for the vehicle identification number, once
     */
    public record Spec(Set<Quantity> extras, boolean vin) {
        public Spec {
            extras = Set.copyOf(extras);
            if (extras.contains(Quantity.ENGINE_SPEED_RPM)) {
                throw new IllegalArgumentException(
                        "extras=" + extras + ", need none that is asked for anyhow");
            }
        }
    }

    private enum Phase {
        WAKE,
        FIND,
        POLL
    }

    private final Spec spec;
    private final ObdReader reader = new ObdReader();
    private final Deque<String> todo = new ArrayDeque<>();
    private final Set<Quantity> supported = EnumSet.noneOf(Quantity.class);
    private final Deque<Quantity> turn = new ArrayDeque<>();
    private Phase phase = Phase.WAKE;
    private ObdState state = ObdState.IDLE;
    private boolean started;
    private boolean waiting;
    private boolean resync;
    private String command = "";
    private HostNanos sentAt = new HostNanos(0);
    private HostNanos heardAt = new HostNanos(0);
    private HostNanos notBefore = new HostNanos(0);
    private HostNanos lastExtra = new HostNanos(0);
    private int timeouts;
    private int misses;
    private int garbled;
    private int vinTries;
    private int answering;
    private boolean countRefused;

    /**
     * @param spec what to ask for
     */
    public ObdDialogue(Spec spec) {
        this.spec = Objects.requireNonNull(spec, "spec");
    }

    /**
     * Lets time pass: starts the talk, notices silence, sends what is due.
     *
     * @param now now
     * @param sink hears what comes of it
     */
    public void tick(HostNanos now, ObdSink sink) {
        if (!started) {
            started = true;
            notBefore = now;
            lastExtra = now;
            become(ObdState.STARTING, sink);
        }
        if (waiting && now.compareTo(deadline()) > 0) {
            waiting = false;
            timedOut(now, sink);
        }
        sendIfDue(now, sink);
    }

    /**
     * Takes bytes from the adapter. The next command goes out with the next {@link #tick}: bytes
     * may have waited for whoever feeds them, and its time is not theirs.
     *
     * @param bytes read only during the call
     * @param from first byte
     * @param count number of bytes
     * @param at when they came
     * @param sink hears what comes of it
     */
    public void feed(byte[] bytes, int from, int count, HostNanos at, ObdSink sink) {
        heardAt = at;
        for (ObdReply reply : reader.replies(bytes, from, count, at, sink)) {
            if (waiting && !reply.isOfAnother(command)) {
                waiting = false;
                judge(reply, at, sink);
            } else {
                // The late answer to a command that was given up: what it is taken for is too.
                waiting = false;
                notBefore = at.plusS(QUIET_S);
            }
        }
    }

    /** Begins anew with the next tick, as after an unplug. */
    public void reset() {
        reader.reset();
        wake();
        started = false;
        waiting = false;
        resync = false;
        timeouts = 0;
        vinTries = 0;
        countRefused = false;
    }

    /**
     * Returns how things stand.
     *
     * @return the state
     */
    public ObdState state() {
        return state;
    }

    /**
     * Returns what became of all bytes so far.
     *
     * @return the tally
     */
    public ByteTally tally() {
        return reader.tally();
    }

    private HostNanos deadline() {
        if (command.equals(FIND) || reader.isSearching()) {
            return sentAt.plusS(SEARCH_S);
        }
        double patienceS = phase == Phase.WAKE ? WAKE_S : command.equals(VIN) ? VIN_S : REPLY_S;
        HostNanos last = heardAt.compareTo(sentAt) > 0 ? heardAt : sentAt;
        HostNanos patient = last.plusS(patienceS);
        HostNanos hard = sentAt.plusS(SEARCH_S);
        return patient.compareTo(hard) < 0 ? patient : hard;
    }

    private void timedOut(HostNanos now, ObdSink sink) {
        timeouts++;
        notBefore = now;
        // A carriage return brings back the prompt of an adapter that has lost or still owes it.
        resync = !resync;
        if (command.equals(todo.peek())) {
            todo.remove();
        }
        if (timeouts >= MOST_TIMEOUTS) {
            become(ObdState.SILENT, sink);
            wake();
        }
    }

    private void wake() {
        phase = Phase.WAKE;
        todo.clear();
        supported.clear();
        turn.clear();
        misses = 0;
        garbled = 0;
        answering = 0;
    }

    private void sendIfDue(HostNanos now, ObdSink sink) {
        if (waiting || now.compareTo(notBefore) < 0) {
            return;
        }
        command = resync ? "" : next(now, sink);
        byte[] bytes = (command + "\r").getBytes(StandardCharsets.US_ASCII);
        waiting = true;
        sentAt = now;
        reader.sent(bytes, now);
        sink.send(bytes);
    }

    private String next(HostNanos now, ObdSink sink) {
        if (phase == Phase.WAKE) {
            return "ATZ";
        }
        if (!todo.isEmpty()) {
            return todo.element();
        }
        if (phase == Phase.FIND) {
            if (state == ObdState.STARTING) {
                become(ObdState.SEARCHING, sink);
            }
            return FIND;
        }
        if (!turn.isEmpty() && misses == 0 && now.secondsAfter(lastExtra) >= EXTRA_EVERY_S) {
            lastExtra = now;
            Quantity extra = turn.remove();
            turn.add(extra);
            return ObdReader.request(extra);
        }
        // With the count of answers to wait for, the adapter need not wait for more of them.
        boolean count = answering > 0 && !countRefused;
        return ObdReader.request(Quantity.ENGINE_SPEED_RPM) + (count ? answering : "");
    }

    private void judge(ObdReply reply, HostNanos at, ObdSink sink) {
        notBefore = at;
        if (resync) {
            resync = false;
            // The answer that was waited for in vain may yet come, and it has a prompt too.
            notBefore = at.plusS(QUIET_S);
            return;
        }
        timeouts = 0; // a prompt for a bare carriage return does not count as an answer
        Trouble trouble = reply.trouble();
        if (trouble == Trouble.RESTARTED && phase != Phase.WAKE) {
            wake();
            become(ObdState.STARTING, sink);
        } else if (phase == Phase.WAKE) {
            phase = Phase.FIND;
            todo.addAll(SET_UP);
            if (state == ObdState.SILENT) {
                become(ObdState.STARTING, sink);
            }
        } else if (!todo.isEmpty()) {
            setUp(reply, trouble);
        } else if (phase == Phase.FIND) {
            found(reply, trouble, at, sink);
        } else {
            polled(reply, trouble, at, sink);
        }
    }

    /** Takes the answer to a command of the list: what an adapter does not know it does without. */
    private void setUp(ObdReply reply, Trouble trouble) {
        String done = todo.remove();
        if (done.equals(VIN)) {
            vinTries = reply.vin().isPresent() ? MOST_VIN_TRIES : vinTries + 1;
            boolean refused = trouble == Trouble.NO_DATA || trouble == Trouble.DECLINED;
            if (vinTries < MOST_VIN_TRIES && !refused) {
                todo.addFirst(VIN);
            }
        } else if (done.equals("0140")) {
            note(ObdReader.supported(reply), 0x40);
        }
    }

    private void found(ObdReply reply, Trouble trouble, HostNanos at, ObdSink sink) {
        List<ObdReply.Answer> answers = ObdReader.supported(reply);
        if (answers.isEmpty()) {
            boolean noCar = trouble == Trouble.NO_DATA || trouble == Trouble.NO_BUS;
            if (noCar) {
                garbled = 0;
                become(ObdState.NO_CAR, sink);
            } else if (trouble != Trouble.DECLINED) {
                countGarbled(sink);
            }
            notBefore = at.plusS(RETRY_S);
            return;
        }
        phase = Phase.POLL;
        lastExtra = at;
        misses = 0;
        garbled = 0;
        note(answers, 0);
        if (spec.vin() && vinTries < MOST_VIN_TRIES) {
            todo.add(VIN);
        }
        if (spec.extras().contains(Quantity.SUPPLY_V)) {
            todo.add("0140");
        }
        if (answers.size() > 1) {
            todo.add("ATH1"); // who answers is seen only with headers
        }
        if (!supported.contains(Quantity.ENGINE_SPEED_RPM)) {
            become(ObdState.NO_SPEED, sink);
        }
    }

    /** Notes which PIDs after a base are supported: the highest bit is the first. */
    private void note(List<ObdReply.Answer> answers, int base) {
        for (ObdReply.Answer a : answers) {
            for (Quantity q : Quantity.values()) {
                int bit = q.pid() - base - 1;
                boolean has = bit >= 0 && bit < 32 && (a.data() >> (31 - bit) & 1) != 0;
                if (has && supported.add(q) && spec.extras().contains(q)) {
                    turn.add(q);
                }
            }
        }
    }

    private void polled(ObdReply reply, Trouble trouble, HostNanos at, ObdSink sink) {
        String speed = ObdReader.request(Quantity.ENGINE_SPEED_RPM);
        if (!command.startsWith(speed)) {
            return; // an extra that fails is asked again in its turn
        }
        List<ObdReply.Answer> answers =
                reply.answers(Quantity.ENGINE_SPEED_RPM.pid(), Quantity.ENGINE_SPEED_RPM.bytes());
        if (!answers.isEmpty()) {
            misses = 0;
            garbled = 0;
            answering = Math.min(9, Math.max(answering, answers.size()));
            boolean turns =
                    answers.stream().anyMatch(a -> Quantity.ENGINE_SPEED_RPM.value(a.data()) > 0);
            become(turns ? ObdState.READING : ObdState.ENGINE_OFF, sink);
            return;
        }
        if (trouble == Trouble.NOT_KNOWN && command.length() > speed.length()) {
            countRefused = true;
            return;
        }
        notBefore = at.plusS(Math.min(RETRY_S, FIRST_BACK_OFF_S * (1 << misses)));
        misses = Math.min(misses + 1, MOST_MISSES);
        if (trouble == Trouble.NONE || trouble == Trouble.DAMAGED || trouble == Trouble.NOT_KNOWN) {
            countGarbled(sink);
        } else if (trouble == Trouble.NO_BUS || misses == MOST_MISSES) {
            boolean speedless =
                    trouble == Trouble.DECLINED
                            || (state == ObdState.NO_SPEED && trouble == Trouble.NO_DATA);
            become(speedless ? ObdState.NO_SPEED : ObdState.NO_CAR, sink);
            phase = Phase.FIND;
            misses = 0;
            notBefore = at.plusS(RETRY_S);
        }
    }

    private void countGarbled(ObdSink sink) {
        garbled++;
        if (garbled >= MOST_MISSES) {
            become(ObdState.GARBLED, sink);
            wake();
        }
    }

    private void become(ObdState next, ObdSink sink) {
        if (next != state) {
            state = next;
            sink.state(next);
        }
    }
}
