package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Folds sentences to a readable width and writes numbers as people read them. */
final class Prose {
    private static final int WIDTH = 88;

    private Prose() {}

    /**
     * Folds a text between words.
     *
     * @param first what stands before the first line
     * @param text the text
     * @return lines; those after the first are indented as deep as {@code first}
     */
    static List<String> fold(String first, String text) {
        String indent = " ".repeat(first.length());
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(first);
        boolean empty = true;
        for (String word : text.strip().split("\\s+", -1)) {
            if (!empty && line.length() + 1 + word.length() > WIDTH) {
                lines.add(line.toString());
                line = new StringBuilder(indent);
                empty = true;
            }
            line.append(empty ? "" : " ").append(word);
            empty = false;
        }
        lines.add(line.toString());
        return lines;
    }

    /** A number with so many decimals, point as decimal mark in every locale. */
    static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    /** A number with a sign. */
    static String signed(double value, int decimals) {
        return String.format(Locale.ROOT, "%+." + decimals + "f", value);
    }

    /** A number with three significant digits and without powers of ten where it can be. */
    static String three(double value) {
        double size = Math.abs(value);
        if (value == 0) {
            return "0";
        }
        if (size >= 100) {
            return fixed(value, 0);
        }
        if (size >= 10) {
            return fixed(value, 1);
        }
        if (size >= 1) {
            return fixed(value, 2);
        }
        return size >= 0.001 ? fixed(value, 4) : String.format(Locale.ROOT, "%.2e", value);
    }

    /** A probability as a bar of ten marks, so that ranks are seen at a glance. */
    static String bar(double probability) {
        int marks = (int) Math.round(10 * probability);
        return "#".repeat(marks) + ".".repeat(10 - marks);
    }

    /** A probability in per cent. */
    static String percent(double probability) {
        return fixed(100 * probability, 0) + " %";
    }
}
