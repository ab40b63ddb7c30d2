package tickover.report;

import java.util.ArrayList;
import java.util.List;

/**
 * Where names stand in a drawing, and how much room they take. Widths are estimated from the number
 * of characters, for a drawing is laid out without the fonts that will show it.
 */
final class DrawingLabels {
    static final double FONT_PIXELS = 16;

    /** Mean width of a character of a sans-serif font as a share of its size, plain and bold. */
    private static final double PLAIN_RATIO = 0.56;

    private static final double BOLD_RATIO = 0.64;

    /** Letters that are far wider than the mean, and how wide, bold. */
    private static final String WIDE = "WM@%";

    private static final double WIDE_RATIO = 1.1;

    private static final double LINE_PIXELS = 19;

    /** From a line's base to its top as a share of its size. */
    private static final double ASCENT_RATIO = 0.8;

    /** A direction is sideways if at least so much of it is. */
    private static final double SIDEWAYS = 0.4;

    /** Longer names are folded; "water pump" and "steering pump" are not. */
    private static final int LINE_LETTERS = 18;

    private static final int MOST_LINES = 3;

    /** One line of a label. */
    record Line(String words, boolean bold, String colour) {}

    private record Placed(Line line, double x, double y, String anchor, boolean ground) {
        double leftPixels() {
            double width = widthPixels(line.words(), line.bold());
            return switch (anchor) {
                case "start" -> x;
                case "end" -> x - width;
                default -> x - width / 2;
            };
        }
    }

    private final List<Placed> placed = new ArrayList<>();

    static double widthPixels(String words, boolean bold) {
        double mean = bold ? BOLD_RATIO : PLAIN_RATIO;
        return FONT_PIXELS
                * words.codePoints()
                        .mapToDouble(c -> WIDE.indexOf(c) >= 0 ? WIDE_RATIO : mean)
                        .sum();
    }

    /**
     * Folds a name to lines that leave the drawing its room; what no line has room for is left out.
     */
    static List<String> folded(String name) {
        List<String> lines = new ArrayList<>();
        String left = name.strip();
        while (!left.isEmpty() && lines.size() < MOST_LINES) {
            int end = end(left);
            lines.add(left.substring(0, end).strip());
            left = left.substring(end).strip();
        }
        if (!left.isEmpty()) {
            lines.set(MOST_LINES - 1, lines.get(MOST_LINES - 1) + "…");
        }
        return lines;
    }

    /**
     * Where a line ends: before the last word that does not fit, or within a word that is longer.
     */
    private static int end(String text) {
        if (text.codePointCount(0, text.length()) <= LINE_LETTERS) {
            return text.length();
        }
        int most = text.offsetByCodePoints(0, LINE_LETTERS);
        int blank = text.lastIndexOf(' ', most);
        return blank > 0 ? blank : most;
    }

    /** Centres lines on a point. */
    void within(List<Line> lines, double x, double y) {
        double first = y - LINE_PIXELS * (lines.size() - 1) / 2 + FONT_PIXELS * ASCENT_RATIO / 2;
        place(lines, x, first, "middle", false);
    }

    /** Puts lines beside a point, in the direction of a unit vector. */
    void beside(List<Line> lines, double x, double y, double[] out) {
        boolean sideways = Math.abs(out[0]) >= SIDEWAYS;
        String anchor = !sideways ? "middle" : out[0] > 0 ? "start" : "end";
        double height = LINE_PIXELS * lines.size();
        double top = y - height / 2 + height / 2 * (sideways ? out[1] : Math.signum(out[1]));
        place(lines, x, top + FONT_PIXELS * ASCENT_RATIO, anchor, true);
    }

    private void place(List<Line> lines, double x, double firstY, String anchor, boolean ground) {
        double y = firstY;
        for (Line line : lines) {
            placed.add(new Placed(line, x, y, anchor, ground));
            y += LINE_PIXELS;
        }
    }

    double left() {
        return placed.stream().mapToDouble(Placed::leftPixels).min().orElse(0);
    }

    double right() {
        return placed.stream()
                .mapToDouble(p -> p.leftPixels() + widthPixels(p.line().words(), p.line().bold()))
                .max()
                .orElse(0);
    }

    double top() {
        return placed.stream().mapToDouble(p -> p.y() - FONT_PIXELS).min().orElse(0);
    }

    double bottom() {
        return placed.stream().mapToDouble(p -> p.y() + FONT_PIXELS / 2).max().orElse(0);
    }

    /** Writes the labels, those over lines on a white ground of their own. */
    void draw(Svg svg) {
        for (Placed p : placed) {
            if (p.ground()) {
                svg.empty(
                        "rect",
                        "x",
                        p.leftPixels(),
                        "y",
                        p.y() - FONT_PIXELS * ASCENT_RATIO - 1,
                        "width",
                        widthPixels(p.line().words(), p.line().bold()),
                        "height",
                        LINE_PIXELS,
                        "fill",
                        "#ffffff",
                        "fill-opacity",
                        0.8);
            }
            svg.words(
                    "text",
                    p.line().words(),
                    "x",
                    p.x(),
                    "y",
                    p.y(),
                    "text-anchor",
                    p.anchor(),
                    "font-weight",
                    p.line().bold() ? "bold" : "normal",
                    "fill",
                    p.line().colour());
        }
    }
}
