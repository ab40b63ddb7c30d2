package tickover.wire;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import tickover.unit.HostNanos;
import tickover.wire.ObdReading.Quantity;

/**
 * Pairs what was sent to a speed adapter with what came back, and reads the values. It asks
 * nothing: {@link ObdDialogue} does that with a reader inside, and a recording with both directions
 * gives the same readings through a reader alone.
 *
 * <p>Where several control units answer, the one with the lowest identity is listened to, which on
 * a CAN bus is by custom the engine's; another is chosen only after it has been missing from ten
 * answers.
 *
 * <p>Thread: one.
 */
public final class ObdReader {
    private static final int MOST_REPLY_BYTES = 4096;
    private static final int MOST_LINE_CHARS = 128;
    private static final int MISSING_BEFORE_ANOTHER = 10;

    private final StringBuilder line = new StringBuilder();
    private final List<ObdReply.Line> lines = new ArrayList<>();
    private String command = "";
    private HostNanos asked = new HostNanos(0);
    private boolean open;
    private String chosen = "";
    private boolean hasChosen;
    private int mostAnswering = 1;
    private int missing;
    private long pending;
    private long in;
    private long framed;
    private long rejected;

    /** Creates a reader that has seen nothing yet. */
    public ObdReader() {}

    /**
     * Notes a command. What is left of an earlier reply counts as rejected.
     *
     * @param bytes what was sent
     * @param at just before it was handed to the line
     */
    public void sent(byte[] bytes, HostNanos at) {
        rejected += pending;
        pending = 0;
        line.setLength(0);
        lines.clear();
        command = plain(new String(bytes, StandardCharsets.US_ASCII));
        asked = Objects.requireNonNull(at, "at");
        open = true;
    }

    /**
     * Takes the next bytes.
     *
     * @param bytes read only during the call
     * @param from first byte
     * @param count number of bytes
     * @param at when they came
     * @param sink hears the values; {@link ObdSink#send} and {@link ObdSink#state} are not called
     */
    public void feed(byte[] bytes, int from, int count, HostNanos at, ObdSink sink) {
        replies(bytes, from, count, at, sink);
    }

    /** Takes the next bytes and returns the replies that ended in them. */
    List<ObdReply> replies(byte[] bytes, int from, int count, HostNanos at, ObdSink sink) {
        Objects.requireNonNull(sink, "sink");
        List<ObdReply> ended = new ArrayList<>();
        for (int i = from; i < from + count; i++) {
            char c = (char) (bytes[i] & 0xFF);
            in++;
            pending++;
            if (c == '>') {
                endLine(at);
                ended.add(endReply(sink));
            } else if (c == '\r' || c == '\n') {
                endLine(at);
            } else if (c > ' ' && line.length() < MOST_LINE_CHARS) {
                line.append(c); // blanks mean nothing, and adapters are known to slip in zero bytes
            }
            if (pending == MOST_REPLY_BYTES) {
                rejected += pending;
                pending = 0;
                lines.clear();
            }
        }
        return ended;
    }

    private void endLine(HostNanos at) {
        String text = line.toString().toUpperCase(Locale.ROOT);
        line.setLength(0);
        boolean echo = lines.isEmpty() && text.equals(command);
        if (!text.isEmpty() && !echo) {
            lines.add(new ObdReply.Line(text, at));
        }
    }

    private ObdReply endReply(ObdSink sink) {
        ObdReply reply = new ObdReply(open ? command : "", asked, lines);
        lines.clear();
        boolean understood = reply.lines().isEmpty();
        if (open) {
            boolean value = read(reply, sink);
            boolean request = command.startsWith("0");
            understood |= value || !request || reply.trouble() != ObdReply.Trouble.NONE;
        }
        framed += understood ? pending : 0;
        rejected += understood ? 0 : pending;
        pending = 0;
        open = false;
        return reply;
    }

    /** Hands on what a reply says; returns whether it is an answer to its request. */
    private boolean read(ObdReply reply, ObdSink sink) {
        if (reply.command().startsWith("09")) {
            Optional<String> vin = reply.vin();
            vin.ifPresent(sink::vin);
            return vin.isPresent();
        }
        for (Quantity quantity : Quantity.values()) {
            if (reply.command().startsWith(request(quantity))) {
                return value(quantity, reply, sink);
            }
        }
        return reply.command().length() == 4
                && reply.command().startsWith("01")
                && !supported(reply).isEmpty();
    }

    /** Returns the answers to a request for what is supported, of which there is one in 32 PIDs. */
    static List<ObdReply.Answer> supported(ObdReply reply) {
        boolean asks = reply.command().matches("01[024]0");
        return asks
                ? reply.answers(Integer.parseInt(reply.command().substring(2), 16), 4)
                : List.of();
    }

    static String request(Quantity quantity) {
        return String.format(Locale.ROOT, "01%02X", quantity.pid());
    }

    private boolean value(Quantity quantity, ObdReply reply, ObdSink sink) {
        List<ObdReply.Answer> answers = reply.answers(quantity.pid(), quantity.bytes());
        if (answers.isEmpty()) {
            return false;
        }
        if (quantity == Quantity.ENGINE_SPEED_RPM) {
            choose(answers, sink);
        }
        for (ObdReply.Answer a : answers) {
            if (a.unit().equals(chosen)) {
                sink.reading(
                        new ObdReading(
                                quantity,
                                quantity.value(a.data()),
                                a.unit(),
                                reply.asked(),
                                a.at()));
                return true;
            }
        }
        return true;
    }

    private void choose(List<ObdReply.Answer> answers, ObdSink sink) {
        boolean there = hasChosen && answers.stream().anyMatch(a -> a.unit().equals(chosen));
        missing = there ? 0 : missing + 1;
        boolean more = answers.size() > mostAnswering;
        mostAnswering = Math.max(mostAnswering, answers.size());
        boolean anew =
                !hasChosen || (!there && chosen.isEmpty()) || missing >= MISSING_BEFORE_ANOTHER;
        if (anew) {
            chosen =
                    answers.stream()
                            .map(ObdReply.Answer::unit)
                            .min(Comparator.naturalOrder())
                            .orElseThrow();
            hasChosen = true;
            missing = 0;
        }
        if ((anew || more) && mostAnswering > 1) {
            sink.controlUnit(chosen, mostAnswering);
        }
    }

    /** Returns whether the adapter says that it is looking for the bus, which takes it seconds. */
    boolean isSearching() {
        return searching(line) || lines.stream().anyMatch(l -> searching(l.text()));
    }

    private static boolean searching(CharSequence text) {
        String t = text.toString();
        return t.contains("SEARCHING") || t.contains("BUSINIT");
    }

    private static String plain(String text) {
        return text.replaceAll("[^!-~]", "").toUpperCase(Locale.ROOT);
    }

    /** Forgets everything but the tally; what is pending counts as rejected. */
    public void reset() {
        rejected += pending;
        pending = 0;
        line.setLength(0);
        lines.clear();
        open = false;
        hasChosen = false;
        chosen = "";
        mostAnswering = 1;
        missing = 0;
    }

    /**
     * Returns what became of all bytes so far: framed are replies that could be read, error words
     * included.
     *
     * @return the tally
     */
    public ByteTally tally() {
        return new ByteTally(in, framed, rejected, pending);
    }
}
