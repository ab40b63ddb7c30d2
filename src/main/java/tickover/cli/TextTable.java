package tickover.cli;

import java.util.ArrayList;
import java.util.List;

/** Lines up columns of text: words to the left, numbers to the right. One thread. */
final class TextTable {
    private static final String BETWEEN = "  ";

    private final List<List<String>> rows = new ArrayList<>();
    private final boolean[] toTheRight;

    /**
     * Starts a table.
     *
     * @param head one title per column; a title that starts with {@code >} makes its column stand
     *     to the right, as numbers do
     */
    TextTable(String... head) {
        toTheRight = new boolean[head.length];
        List<String> titles = new ArrayList<>();
        for (int i = 0; i < head.length; i++) {
            toTheRight[i] = head[i].startsWith(">");
            titles.add(toTheRight[i] ? head[i].substring(1) : head[i]);
        }
        rows.add(titles);
    }

    /** Adds a row of as many cells as there are titles. */
    void row(String... cells) {
        if (!(cells.length == toTheRight.length)) {
            throw new IllegalArgumentException(
                    "cells=" + cells.length + ", need " + toTheRight.length);
        }
        rows.add(List.of(cells));
    }

    /** Returns the lines, a rule under the titles, no blanks at the ends. */
    List<String> lines() {
        int[] width = new int[toTheRight.length];
        for (List<String> row : rows) {
            for (int i = 0; i < width.length; i++) {
                width[i] = Math.max(width[i], length(row.get(i)));
            }
        }
        List<String> lines = new ArrayList<>();
        for (List<String> row : rows) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < width.length; i++) {
                String pad = " ".repeat(width[i] - length(row.get(i)));
                line.append(i == 0 ? "" : BETWEEN)
                        .append(toTheRight[i] ? pad + row.get(i) : row.get(i) + pad);
            }
            lines.add(line.toString().stripTrailing());
            if (lines.size() == 1) {
                StringBuilder rule = new StringBuilder();
                for (int i = 0; i < width.length; i++) {
                    rule.append(i == 0 ? "" : BETWEEN).append("-".repeat(width[i]));
                }
                lines.add(rule.toString());
            }
        }
        return lines;
    }

    private static int length(String cell) {
        return cell.codePointCount(0, cell.length());
    }
}
