package tickover.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.util.List;

/** Turns what was found in files into pieces of one-line sentences. */
final class Wording {
    private static final int QUOTE_LIMIT = 60;

    private Wording() {}

    /** What the user wrote, in quotes, without anything that could break the line. */
    static String quoted(String text) {
        String line = oneLine(text);
        if (line.codePointCount(0, line.length()) > QUOTE_LIMIT) {
            line = line.substring(0, line.offsetByCodePoints(0, QUOTE_LIMIT)) + "…";
        }
        return '"' + line + '"';
    }

    /** Control characters, line ends above all, become blanks. */
    static String oneLine(String text) {
        StringBuilder line = new StringBuilder(text.length());
        text.codePoints().forEach(c -> line.appendCodePoint(breaksLine(c) ? ' ' : c));
        return line.toString();
    }

    /** Names one after the other, or the word for having none. */
    static String list(List<String> names) {
        return names.isEmpty() ? "(there are none)" : oneLine(String.join(", ", names));
    }

    static boolean hasControl(String text) {
        return text.codePoints().anyMatch(Wording::breaksLine);
    }

    private static boolean breaksLine(int codePoint) {
        int type = Character.getType(codePoint);
        return type == Character.CONTROL
                || type == Character.LINE_SEPARATOR
                || type == Character.PARAGRAPH_SEPARATOR;
    }

    /** A number as its owner would write it: whole ones without a fraction. */
    static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    static String reason(IOException e) {
        if (e instanceof NoSuchFileException) {
            return "no such file";
        }
        if (e instanceof AccessDeniedException) {
            return "no permission";
        }
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}
