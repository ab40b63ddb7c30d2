package tickover.wire;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tickover.unit.HostNanos;

/**
 * What an adapter answered to one command, up to its prompt.
 *
 * @param command the command, without its carriage return; empty if nothing was asked
 * @param asked when the command was handed to the line
 * @param lines what came, echo and empty lines left out
 */
record ObdReply(String command, HostNanos asked, List<Line> lines) {
    /** A longest identity of a control unit: 29 bits in hexadecimal. */
    private static final int WIDE_ID_DIGITS = 8;

    private static final int NARROW_ID_DIGITS = 3;
    private static final int OLD_HEADER_DIGITS = 6;
    private static final int VIN_CHARACTERS = 17;

    /** What a bus may put before a control unit's words: identity and length, or an old header. */
    private static final String BEFORE =
            "(?:[0-9A-F]{3}0[0-7]|[0-9A-F]{8}0[0-7]|(?!4[19])[0-9A-F]{6})?";

    /** A control unit that declines names the service and gives a reason. */
    private static final Pattern DECLINED = Pattern.compile(BEFORE + "7F0[19](?:[0-9A-F]{2})+");

    /** Pieces of a message of several frames, with identities of 3 or 8 digits before them. */
    private static final Pattern FIRST_FRAME =
            Pattern.compile("(?:[0-9A-F]{3}|[0-9A-F]{8})10(14490201[0-9A-F]{6})");

    private static final Pattern NEXT_FRAME =
            Pattern.compile("(?:[0-9A-F]{3}|[0-9A-F]{8})2([0-9A-F])([0-9A-F]{14})");

    /** An old message with its header and its checksum. */
    private static final Pattern OLD_MESSAGE =
            Pattern.compile("[0-9A-F]{6}(49020[1-5][0-9A-F]{8})[0-9A-F]{2}");

    /**
     * One line.
     *
     * @param text without blanks, in capitals
     * @param at when its end came
     */
    record Line(String text, HostNanos at) {}

    /**
     * What one control unit answered.
     *
     * @param unit its identity; empty if the adapter does not show it
     * @param data the bytes after service and PID as one number, the first byte the highest
     * @param at when the line had come
     */
    record Answer(String unit, long data, HostNanos at) {}

    /** What an adapter says instead of data. */
    enum Trouble {
        /** Nothing is wrong. */
        NONE,
        /** No control unit answers. */
        NO_DATA,
        /** A control unit has understood the request and does not give what it asks for. */
        DECLINED,
        /** There is no bus, or it fails. */
        NO_BUS,
        /** The command was interrupted by another. */
        STOPPED,
        /** More came than the adapter can hold. */
        BUFFER_FULL,
        /** The adapter does not know the command. */
        NOT_KNOWN,
        /** What came over the bus or the line is damaged. */
        DAMAGED,
        /** The adapter has started again by itself. */
        RESTARTED
    }

    ObdReply {
        Objects.requireNonNull(command, "command");
        Objects.requireNonNull(asked, "asked");
        lines = List.copyOf(lines);
    }

    Trouble trouble() {
        for (Line line : lines) {
            Trouble trouble = troubleOf(line.text());
            if (trouble != Trouble.NONE) {
                return trouble;
            }
        }
        return Trouble.NONE;
    }

    private static Trouble troubleOf(String t) {
        if (t.contains("NODATA")) {
            return Trouble.NO_DATA;
        }
        if (DECLINED.matcher(t).matches()) {
            return Trouble.DECLINED;
        }
        if (t.contains("UNABLETOCONNECT")
                || t.contains("BUSERROR")
                || t.contains("CANERROR")
                || t.contains("BUSBUSY")
                || t.contains("FBERROR")
                || (t.contains("BUSINIT") && t.contains("ERROR"))) {
            return Trouble.NO_BUS;
        }
        if (t.contains("STOPPED")) {
            return Trouble.STOPPED;
        }
        if (t.contains("BUFFERFULL")) {
            return Trouble.BUFFER_FULL;
        }
        if (t.equals("?")) {
            return Trouble.NOT_KNOWN;
        }
        if (t.contains("LVRESET") || t.contains("LPALERT") || t.contains("ACTALERT")) {
            return Trouble.RESTARTED;
        }
        return t.contains("DATAERROR") || t.contains("RXERROR") || t.matches("ERR\\d\\d")
                ? Trouble.DAMAGED
                : Trouble.NONE;
    }

    /** Returns the lines of data for a PID of service 01, one for each control unit. */
    List<Answer> answers(int pid, int bytes) {
        String start = String.format(Locale.ROOT, "41%02X", pid);
        List<Answer> answers = new ArrayList<>();
        for (Line line : lines) {
            String t = afterProgress(line.text());
            if (troubleOf(t) == Trouble.NONE) {
                answer(t, start, bytes, line.at()).ifPresent(answers::add);
            }
        }
        return answers;
    }

    /**
     * Whether a control unit answers here to another request of service 01 than the one given, and
     * to that one not at all.
     */
    boolean isOfAnother(String request) {
        if (!request.startsWith("01") || request.length() < 4) {
            return false;
        }
        String own = "41" + request.substring(2, 4);
        boolean another = false;
        for (Line line : lines) {
            String t = afterProgress(line.text());
            another |= t.matches(BEFORE + "41[0-9A-F]{2}(?:[0-9A-F]{2})+");
            if (t.contains(own)) {
                return false;
            }
        }
        return another;
    }

    /** A search for the bus may print its dots on the line of the first answer. */
    private static String afterProgress(String t) {
        return t.replaceAll("^(SEARCHING|BUSINIT:?)?\\.*(OK)?", "");
    }

    /** The digits before the data tell by their number how the bus shows a control unit. */
    private static Optional<Answer> answer(String t, String start, int bytes, HostNanos at) {
        int digits = 4 + 2 * bytes;
        if (!t.matches("[0-9A-F]+")) {
            return Optional.empty();
        }
        if (t.startsWith(start) && t.length() == digits) {
            return Optional.of(new Answer("", data(t, 4, bytes), at));
        }
        for (int id : new int[] {NARROW_ID_DIGITS, WIDE_ID_DIGITS}) {
            if (t.length() >= id + 2 + digits
                    && t.startsWith(start, id + 2)
                    && Integer.parseInt(t.substring(id, id + 2), 16) == 2 + bytes) {
                return Optional.of(new Answer(t.substring(0, id), data(t, id + 6, bytes), at));
            }
        }
        if (t.length() == OLD_HEADER_DIGITS + digits + 2
                && t.startsWith(start, OLD_HEADER_DIGITS)) {
            // Format, target, source: the last of them is the control unit.
            String unit = t.substring(4, OLD_HEADER_DIGITS);
            return Optional.of(new Answer(unit, data(t, OLD_HEADER_DIGITS + 4, bytes), at));
        }
        return Optional.empty();
    }

    private static long data(String t, int from, int bytes) {
        return Long.parseLong(t.substring(from, from + 2 * bytes), 16);
    }

    /** A piece of a long message as an adapter shows it that was told to leave headers out. */
    private static String withoutHeader(String t) {
        Matcher first = FIRST_FRAME.matcher(t);
        if (first.matches()) {
            return "0:" + first.group(1).substring(2);
        }
        Matcher next = NEXT_FRAME.matcher(t);
        if (next.matches()) {
            return next.group(1) + ":" + next.group(2);
        }
        Matcher old = OLD_MESSAGE.matcher(t);
        return old.matches() ? old.group(1) : t;
    }

    /**
     * Returns the vehicle identification number that several lines spell, either in one message of
     * numbered pieces ({@code 014}, {@code 0:490201…}, {@code 1:…}) or in five old messages ({@code
     * 490201…} to {@code 490205…}), with or without headers. Pieces of a second control unit repeat
     * a number: the first counts.
     */
    Optional<String> vin() {
        TreeMap<Integer, String> pieces = new TreeMap<>();
        for (Line line : lines) {
            String t = withoutHeader(afterProgress(line.text()));
            if (t.matches("[0-9A-F]:[0-9A-F]+")) {
                pieces.putIfAbsent(Integer.parseInt(t.substring(0, 1), 16), t.substring(2));
            } else if (t.matches("49020[1-5][0-9A-F]{8}")) {
                pieces.putIfAbsent(Integer.parseInt(t.substring(5, 6)), t.substring(6));
            }
        }
        String all = String.join("", pieces.values()).replaceFirst("^4902(01)?", "");
        var text = new StringBuilder();
        for (int i = 0; i + 2 <= all.length(); i += 2) {
            int c = Integer.parseInt(all.substring(i, i + 2), 16);
            if (c != 0 && c != 0xFF && text.length() < VIN_CHARACTERS) {
                text.append((char) c);
            }
        }
        String vin = text.toString();
        // The standard leaves out I, O and Q, which look like 1 and 0.
        return vin.matches("[A-HJ-NPR-Z0-9]{17}") ? Optional.of(vin) : Optional.empty();
    }
}
