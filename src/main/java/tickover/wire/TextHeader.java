package tickover.wire;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What the columns of a text line are, read from a header line. {@code docs/wire.md} has the words.
 */
final class TextHeader {
    /** What a column holds. */
    enum Column {
        /** Nothing that is wanted. */
        OTHER,
        /** When the sample was taken. */
        TIME,
        /** Acceleration. */
        AXIS,
        /** Engine speed. */
        RPM,
        /** When the latest tach pulse came. */
        PULSE
    }

    /** Stands for any run of blanks and tabs. */
    static final byte BLANKS = ' ';

    private static final Pattern IN_BRACKETS =
            Pattern.compile("(.*?)\\s*[(\\[]\\s*(.*?)\\s*[)\\]]");
    private static final Map<String, Long> TIME_UNITS_US =
            Map.of(
                    "us",
                    1L,
                    "µs",
                    1L,
                    "usec",
                    1L,
                    "ms",
                    1000L,
                    "msec",
                    1000L,
                    "s",
                    1_000_000L,
                    "sec",
                    1_000_000L);
    private static final Map<String, Long> TIME_WORDS_US =
            Map.of(
                    "micros",
                    1L,
                    "microseconds",
                    1L,
                    "us",
                    1L,
                    "millis",
                    1000L,
                    "milliseconds",
                    1000L,
                    "ms",
                    1000L,
                    "s",
                    1_000_000L,
                    "sec",
                    1_000_000L,
                    "seconds",
                    1_000_000L);
    private static final Map<String, TextUnit> UNITS =
            Map.ofEntries(
                    Map.entry("", TextUnit.UNKNOWN),
                    Map.entry("g", TextUnit.G),
                    Map.entry("mg", TextUnit.MILLI_G),
                    Map.entry("mps2", TextUnit.MPS2),
                    Map.entry("ms2", TextUnit.MPS2),
                    Map.entry("m_s2", TextUnit.MPS2),
                    Map.entry("m/s2", TextUnit.MPS2),
                    Map.entry("m/s^2", TextUnit.MPS2),
                    Map.entry("m/s²", TextUnit.MPS2),
                    Map.entry("raw", TextUnit.COUNTS),
                    Map.entry("counts", TextUnit.COUNTS),
                    Map.entry("lsb", TextUnit.COUNTS));
    private static final Pattern TIME =
            Pattern.compile("(?:t|ts|time|timestamp)_(us|µs|usec|ms|msec|s|sec)");
    private static final Pattern PULSE =
            Pattern.compile("(?:pulse|tach)_(us|µs|usec|ms|msec|s|sec)");
    private static final Pattern AXIS =
            Pattern.compile(
                    "(?:a|acc|accel|acceleration)_?([xyz])(?:_(\\w+))?"
                        + "|([xyz])(?:_(?:a|acc|accel))?(?:_(\\w+))?"
                        + "|(?:a|acc|accel|acceleration)(?:_(g|mg|mps2|ms2|m_s2|raw|counts|lsb))?");
    private static final Pattern RPM = Pattern.compile("(?:(?:engine|speed|crank)_?)?rpm");

    final byte separator;
    final Column[] columns;
    final long timeUs;
    final long pulseUs;
    final TextLayout layout;

    /** True if the first column could be the tail of a longer word with another meaning. */
    final boolean mayBeCut;

    private TextHeader(
            byte separator,
            Column[] columns,
            long timeUs,
            long pulseUs,
            TextLayout layout,
            boolean mayBeCut) {
        this.separator = separator;
        this.columns = columns;
        this.timeUs = timeUs;
        this.pulseUs = pulseUs;
        this.layout = layout;
        this.mayBeCut = mayBeCut;
    }

    /** Reads a line; empty if it is no header with a time, its unit, and 1 to 3 axes. */
    static Optional<TextHeader> parse(String line) {
        String header = line.strip();
        byte separator = separatorOf(header);
        String[] words =
                separator == BLANKS
                        ? header.split("[ \t]+", -1)
                        : header.split(Pattern.quote(String.valueOf((char) separator)), -1);
        Column[] columns = new Column[words.length];
        List<String> axes = new ArrayList<>();
        List<TextUnit> units = new ArrayList<>();
        long timeUs = 0;
        long pulseUs = 0;
        boolean rpm = false;
        for (int i = 0; i < words.length; i++) {
            String word = words[i].strip().replace("\"", "").toLowerCase(Locale.ROOT);
            long time = time(word);
            long pulse = unitOf(PULSE, word);
            Matcher axis = axis(word);
            if (time > 0 && timeUs == 0) {
                columns[i] = Column.TIME;
                timeUs = time;
            } else if (pulse > 0 && pulseUs == 0) {
                columns[i] = Column.PULSE;
                pulseUs = pulse;
            } else if (axis != null && unit(word, axis) != null) {
                columns[i] = Column.AXIS;
                axes.add(axisName(axis));
                units.add(unit(word, axis));
            } else if (!rpm && RPM.matcher(word).matches()) {
                columns[i] = Column.RPM;
                rpm = true;
            } else {
                columns[i] = Column.OTHER;
            }
        }
        boolean sound =
                timeUs > 0
                        && axes.size() >= 1
                        && axes.size() <= 3
                        && axes.stream().distinct().count() == axes.size()
                        && units.stream().distinct().count() == 1;
        if (!sound) {
            return Optional.empty();
        }
        var layout = new TextLayout(header, axes, units.get(0), rpm, pulseUs > 0);
        boolean mayBeCut = words[0].strip().toLowerCase(Locale.ROOT).matches("s|sec|seconds");
        return Optional.of(new TextHeader(separator, columns, timeUs, pulseUs, layout, mayBeCut));
    }

    private static byte separatorOf(String header) {
        for (byte candidate : new byte[] {',', ';', '\t'}) {
            if (header.indexOf(candidate) >= 0) {
                return candidate;
            }
        }
        return BLANKS;
    }

    /** Returns µs per unit of a time column; 0 if the word is none. */
    private static long time(String word) {
        Long alone = TIME_WORDS_US.get(word);
        return alone != null ? alone : unitOf(TIME, word);
    }

    private static long unitOf(Pattern named, String word) {
        Matcher brackets = IN_BRACKETS.matcher(word);
        String flat = brackets.matches() ? brackets.group(1) + "_" + brackets.group(2) : word;
        Matcher m = named.matcher(flat);
        return m.matches() ? TIME_UNITS_US.get(m.group(1)) : 0;
    }

    private static Matcher axis(String word) {
        Matcher brackets = IN_BRACKETS.matcher(word);
        Matcher m = AXIS.matcher(brackets.matches() ? brackets.group(1) : word);
        return m.matches() ? m : null;
    }

    private static String axisName(Matcher axis) {
        String name = axis.group(1) != null ? axis.group(1) : axis.group(3);
        return name != null ? name : "a";
    }

    /** Returns the unit of an axis; null if there is one that is not known. */
    private static TextUnit unit(String word, Matcher axis) {
        Matcher brackets = IN_BRACKETS.matcher(word);
        if (brackets.matches()) {
            return UNITS.get(brackets.group(2));
        }
        for (int group : new int[] {2, 4, 5}) {
            if (axis.group(group) != null) {
                return UNITS.get(axis.group(group));
            }
        }
        return TextUnit.UNKNOWN;
    }
}
