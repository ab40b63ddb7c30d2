package tickover.cli;

import java.util.List;
import java.util.stream.Collectors;

/** Builds a table of comma-separated values as RFC 4180 has it, with a header row. */
final class Csv {
    private static final String LINE_END = "\r\n";

    private final StringBuilder text = new StringBuilder();
    private final int columns;

    Csv(String... head) {
        columns = head.length;
        text.append(line(List.of(head)));
    }

    /** Adds a row of as many cells as there are columns. */
    void row(Object... cells) {
        if (!(cells.length == columns)) {
            throw new IllegalArgumentException("cells=" + cells.length + ", need " + columns);
        }
        text.append(line(List.of(cells)));
    }

    String text() {
        return text.toString();
    }

    /** One line with its end. */
    static String line(List<?> cells) {
        return cells.stream().map(Csv::cell).collect(Collectors.joining(",")) + LINE_END;
    }

    private static String cell(Object value) {
        String s = value.toString();
        boolean quoted = s.chars().anyMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
        return quoted ? '"' + s.replace("\"", "\"\"") + '"' : s;
    }
}
