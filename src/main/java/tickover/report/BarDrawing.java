package tickover.report;

import java.util.List;
import java.util.Locale;

/** Levels as bars of one scale from zero, one below the other, each with its number. */
final class BarDrawing {
    private static final double LABEL_PIXELS = 145;
    private static final double BAR_PIXELS = 180;
    private static final double NUMBER_PIXELS = 115;
    private static final double ROW_PIXELS = 30;
    private static final double BAR_HEIGHT_PIXELS = 20;
    private static final double LEAST_BAR_PIXELS = 1.5;
    private static final double FONT_PIXELS = 15;

    /** One bar; what precedes its number says if it is only a bound. */
    record Bar(String label, String bound, double levelRmsMps2) {}

    private BarDrawing() {}

    /**
     * Draws bars.
     *
     * @param title what they show
     * @param bars at least one
     * @return one {@code svg} element
     */
    static String svg(String title, List<Bar> bars) {
        double highest = bars.stream().mapToDouble(Bar::levelRmsMps2).max().orElse(0);
        double width = LABEL_PIXELS + BAR_PIXELS + NUMBER_PIXELS;
        double height = ROW_PIXELS * bars.size();
        StringBuilder said = new StringBuilder(title);
        bars.forEach(b -> said.append("; ").append(b.label()).append(": ").append(number(b)));
        Svg svg = new Svg();
        svg.root(width, height, title, said.toString(), FONT_PIXELS);
        double y = 0;
        for (Bar bar : bars) {
            double length =
                    highest > 0
                            ? Math.max(LEAST_BAR_PIXELS, BAR_PIXELS * bar.levelRmsMps2() / highest)
                            : LEAST_BAR_PIXELS;
            double text = y + ROW_PIXELS / 2 + 5;
            svg.words("text", bar.label(), "x", 0, "y", text, "fill", EngineDrawing.INK);
            svg.empty(
                    "rect",
                    "x",
                    LABEL_PIXELS,
                    "y",
                    y + (ROW_PIXELS - BAR_HEIGHT_PIXELS) / 2,
                    "width",
                    length,
                    "height",
                    BAR_HEIGHT_PIXELS,
                    "fill",
                    "#3b5b8c");
            svg.words(
                    "text",
                    number(bar),
                    "x",
                    LABEL_PIXELS + length + 8,
                    "y",
                    text,
                    "fill",
                    EngineDrawing.INK);
            y += ROW_PIXELS;
        }
        return svg.close("svg").toString();
    }

    private static String number(Bar bar) {
        return bar.bound() + level(bar.levelRmsMps2()) + " m/s²";
    }

    /** A level with as many decimals as it bears. */
    static String level(double rmsMps2) {
        return String.format(Locale.ROOT, rmsMps2 < 0.1 ? "%.4f" : "%.3f", rmsMps2);
    }
}
