package tickover.wire;

import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Optional;

/**
 * Turns the lines of a plain-text probe into samples: numbers under a header line such as {@code
 * t_us,ax,ay,az}. {@code docs/wire.md} says which words a header may use.
 *
 * <p>A line ends with CR, LF or both. Empty lines and lines that start with # count as framed. The
 * first line after the start or an unplug may have lost its beginning, and a number without its
 * first digits is still a number: it is rejected unless it is a header or a comment. Lines are not
 * protected by a checksum; a damaged digit passes unseen.
 *
 * <p>Lines of numbers are decoded without allocation unless a number has more than 18 digits.
 * Thread: one.
 */
public final class TextDecoder implements StreamDecoder {
    /** Most bytes of a line, its end included. */
    static final int MOST_LINE_BYTES = 256;

    /** Later times are noise, and beyond what a double holds exactly. */
    private static final long MOST_TICK_US = 1L << 53;

    private final byte[] line = new byte[MOST_LINE_BYTES];
    private final TextLine values = new TextLine();
    private final TextNumber number = new TextNumber();
    private TextHeader header;
    private boolean mayBeCut = true;
    private boolean toSay;
    private int pending;
    private boolean skipping;
    private long in;
    private long framed;
    private long rejected;

    /** Creates a decoder that waits for a header line. */
    public TextDecoder() {}

    /**
     * Creates a decoder that knows the columns before any header comes.
     *
     * @param header as a header line would say it, such as {@code t_us,ax,ay,az}
     * @return the decoder; it says the layout with the first line
     * @throws IllegalArgumentException if the header names no time with its unit or not 1 to 3 axes
     */
    public static TextDecoder withLayout(String header) {
        TextDecoder decoder = new TextDecoder();
        decoder.header =
                TextHeader.parse(header)
                        .orElseThrow(
                                () ->
                                        new IllegalArgumentException(
                                                "header="
                                                        + header
                                                        + ", need a time column with its unit and"
                                                        + " 1 to 3 axes, such as t_us,ax,ay,az"));
        decoder.toSay = true;
        return decoder;
    }

    @Override
    public void feed(byte[] bytes, int from, int count, FrameSink sink) {
        Objects.requireNonNull(sink, "sink");
        Objects.checkFromIndexSize(from, count, bytes.length);
        for (int i = from; i < from + count; i++) {
            byte b = bytes[i];
            in++;
            if (b == '\n' || b == '\r') {
                end(sink);
            } else {
                if (!skipping) {
                    line[pending] = b;
                }
                pending++;
                if (pending == MOST_LINE_BYTES) {
                    pending = 0;
                    skipping = true;
                    reject(sink, Rejection.TOO_LONG, MOST_LINE_BYTES);
                }
            }
        }
    }

    private void end(FrameSink sink) {
        int length = pending;
        boolean cut = mayBeCut;
        pending = 0;
        mayBeCut = false;
        if (skipping) {
            skipping = false;
            reject(sink, Rejection.TOO_LONG, length + 1);
            return;
        }
        int first = 0;
        while (first < length && isBlank(line[first])) {
            first++;
        }
        if (first == length || line[first] == '#') {
            framed += length + 1;
        } else if (mayBeNumber(line[first])) {
            numbers(length, cut, sink);
        } else {
            header(length, cut, sink);
        }
    }

    private void header(int length, boolean cut, FrameSink sink) {
        Optional<TextHeader> read =
                TextHeader.parse(new String(line, 0, length, StandardCharsets.UTF_8));
        if (read.isEmpty() || (cut && read.get().mayBeCut)) {
            reject(sink, Rejection.BAD_LINE, length + 1);
            return;
        }
        framed += length + 1;
        header = read.get();
        toSay = false;
        sink.textLayout(header.layout);
    }

    private void numbers(int length, boolean cut, FrameSink sink) {
        if (header == null || cut || !readColumns(length)) {
            reject(sink, Rejection.BAD_LINE, length + 1);
            return;
        }
        framed += length + 1;
        if (toSay) {
            toSay = false;
            sink.textLayout(header.layout);
        }
        sink.textLine(values);
    }

    private boolean readColumns(int length) {
        TextHeader h = header;
        TextLine v = values;
        v.axes = 0;
        v.hasRpm = false;
        v.hasPulse = false;
        int at = 0;
        for (int column = 0; column < h.columns.length; column++) {
            int stop = columnEnd(at, length, h.separator);
            boolean last = column == h.columns.length - 1;
            if (last != (stop == length)) {
                return false;
            }
            int from = at;
            int to = stop;
            while (from < to && isBlank(line[from])) {
                from++;
            }
            while (to > from && isBlank(line[to - 1])) {
                to--;
            }
            if (!readColumn(h, h.columns[column], from, to)) {
                return false;
            }
            at = stop + 1;
        }
        return true;
    }

    /** Returns where a column ends: at its separator, or at the end of the line. */
    private int columnEnd(int at, int length, byte separator) {
        int stop = at;
        if (separator != TextHeader.BLANKS) {
            while (stop < length && line[stop] != separator) {
                stop++;
            }
            return stop;
        }
        while (stop < length && isBlank(line[stop])) {
            stop++;
        }
        while (stop < length && !isBlank(line[stop])) {
            stop++;
        }
        int rest = stop;
        while (rest < length && isBlank(line[rest])) {
            rest++;
        }
        return rest == length ? length : stop;
    }

    private boolean readColumn(TextHeader h, TextHeader.Column column, int from, int to) {
        switch (column) {
            case OTHER -> {
                return true;
            }
            case TIME -> {
                boolean fits = number.read(line, from, to) && tickUs(h.timeUs) >= 0;
                values.tick = fits ? tickUs(h.timeUs) : 0;
                return fits;
            }
            case AXIS -> {
                boolean fits = number.read(line, from, to);
                values.values[values.axes] = number.value;
                values.axes++;
                return fits;
            }
            case RPM -> {
                values.hasRpm = from < to;
                boolean fits = from == to || (number.read(line, from, to) && number.value >= 0);
                values.rpm = number.value;
                return fits;
            }
            case PULSE -> {
                values.hasPulse = from < to;
                boolean fits =
                        from == to || (number.read(line, from, to) && tickUs(h.pulseUs) >= 0);
                values.pulseTick = from < to && fits ? tickUs(h.pulseUs) : 0;
                return fits;
            }
        }
        throw new IllegalStateException("column=" + column);
    }

    /** Returns the number just read as µs; -1 if it is no time. */
    private long tickUs(long unitUs) {
        double us = number.value * unitUs;
        return us >= 0 && us <= MOST_TICK_US ? Math.round(us) : -1;
    }

    private static boolean isBlank(byte b) {
        return b == ' ' || b == '\t';
    }

    private static boolean mayBeNumber(byte b) {
        return (b >= '0' && b <= '9') || b == '-' || b == '+' || b == '.' || b == ',' || b == ';';
    }

    private void reject(FrameSink sink, Rejection reason, int bytes) {
        rejected += bytes;
        sink.rejected(reason, bytes);
    }

    /** Forgets the line that has not ended; its bytes count as rejected. The columns stay known. */
    @Override
    public void reset() {
        rejected += pending;
        pending = 0;
        skipping = false;
        mayBeCut = true;
    }

    @Override
    public ByteTally tally() {
        return new ByteTally(in, framed, rejected, pending);
    }
}
