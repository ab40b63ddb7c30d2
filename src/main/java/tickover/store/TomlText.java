package tickover.store;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.temporal.ChronoField;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Builds a TOML file line by line. */
final class TomlText {
    /** Seconds are always there, fractions only where needed, so that texts sort like times. */
    static final DateTimeFormatter DATE_TIME =
            new DateTimeFormatterBuilder()
                    .appendPattern("uuuu-MM-dd'T'HH:mm:ss")
                    .appendFraction(ChronoField.NANO_OF_SECOND, 0, 9, true)
                    .toFormatter(Locale.ROOT);

    private final StringBuilder text = new StringBuilder();

    /** Starts a table such as {@code [engine]} or {@code [[belts]]}. */
    TomlText table(String header) {
        text.append(text.isEmpty() ? "" : "\n").append(header).append('\n');
        return this;
    }

    TomlText put(String key, String value) {
        return line(key, quoted(value));
    }

    TomlText put(String key, double value) {
        return line(key, number(value));
    }

    TomlText put(String key, long value) {
        return line(key, Long.toString(value));
    }

    TomlText put(String key, boolean value) {
        return line(key, Boolean.toString(value));
    }

    TomlText put(String key, LocalDateTime value) {
        return line(key, DATE_TIME.format(value));
    }

    TomlText putNames(String key, List<String> values) {
        return line(
                key,
                values.stream().map(TomlText::quoted).collect(Collectors.joining(", ", "[", "]")));
    }

    TomlText putWholes(String key, List<Integer> values) {
        return line(key, values.toString());
    }

    /** A value that is TOML already. */
    TomlText line(String key, String toml) {
        text.append(key).append(" = ").append(toml).append('\n');
        return this;
    }

    /** The shortest digits that read back as the same number. */
    static String number(double value) {
        return Double.toString(value);
    }

    static String quoted(String value) {
        StringBuilder s = new StringBuilder("\"");
        value.codePoints()
                .forEach(
                        c -> {
                            switch (c) {
                                case '"' -> s.append("\\\"");
                                case '\\' -> s.append("\\\\");
                                case '\n' -> s.append("\\n");
                                case '\r' -> s.append("\\r");
                                case '\t' -> s.append("\\t");
                                default -> {
                                    if (Character.getType(c) == Character.CONTROL) {
                                        s.append(String.format(Locale.ROOT, "\\u%04X", c));
                                    } else {
                                        s.appendCodePoint(c);
                                    }
                                }
                            }
                        });
        return s.append('"').toString();
    }

    @Override
    public String toString() {
        return text.toString();
    }
}
