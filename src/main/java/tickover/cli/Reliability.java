package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.session.RankingStudy.Outcome;

/** Whether probabilities mean what they say: how often the first candidate was right. */
final class Reliability {
    private static final int BINS = 10;

    /** Normal quantile of a 95 % interval. */
    private static final double WIDTH = 1.96;

    private final List<Bin> bins;
    private final int visits;

    /**
     * Visits whose first candidate had about the same probability.
     *
     * @param fromProbability lower edge
     * @param toProbability upper edge
     * @param visits how many
     * @param meanProbability mean probability of their first candidates
     * @param rightRatio share of them that were right
     */
    record Bin(
            double fromProbability,
            double toProbability,
            int visits,
            double meanProbability,
            double rightRatio) {
        /** 95 % interval of the share, after Wilson: lower and upper end. */
        double[] intervalRatio() {
            double z2 = WIDTH * WIDTH / visits;
            double middle = (rightRatio + z2 / 2) / (1 + z2);
            double half =
                    WIDTH
                            * Math.sqrt(rightRatio * (1 - rightRatio) / visits + z2 / (4 * visits))
                            / (1 + z2);
            return new double[] {Math.max(0, middle - half), Math.min(1, middle + half)};
        }
    }

    private Reliability(List<Bin> bins, int visits) {
        this.bins = bins;
        this.visits = visits;
    }

    static Reliability of(List<Outcome> outcomes) {
        List<Bin> bins = new ArrayList<>();
        for (int b = 0; b < BINS; b++) {
            double from = (double) b / BINS;
            double to = (double) (b + 1) / BINS;
            boolean last = b == BINS - 1;
            List<Outcome> in =
                    outcomes.stream()
                            .filter(o -> o.first().probability() >= from)
                            .filter(o -> last || o.first().probability() < to)
                            .toList();
            if (!in.isEmpty()) {
                bins.add(
                        new Bin(
                                from,
                                to,
                                in.size(),
                                in.stream()
                                        .mapToDouble(o -> o.first().probability())
                                        .average()
                                        .orElse(0),
                                (double) in.stream().filter(Outcome::right).count() / in.size()));
            }
        }
        return new Reliability(List.copyOf(bins), outcomes.size());
    }

    List<Bin> bins() {
        return bins;
    }

    /** Expected calibration error: mean distance of the two, by visits, over ten even bins. */
    double expectedError() {
        double sum = 0;
        for (Bin b : bins) {
            sum += b.visits() * Math.abs(b.meanProbability() - b.rightRatio());
        }
        return visits == 0 ? 0 : sum / visits;
    }

    /** A diagram as SVG: how often right over probability, with 95 % intervals and counts. */
    String svg() {
        StringBuilder s = new StringBuilder();
        s.append("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 460 420'")
                .append(" font-family='sans-serif' font-size='12'>\n")
                .append("<title>How often the first candidate is right</title>\n")
                .append("<rect width='460' height='420' fill='white'/>\n");
        for (int i = 0; i <= 10; i += 2) {
            double v = i / 10.0;
            s.append(line(x(v), y(0), x(v), y(1), "#ddd", 1));
            s.append(line(x(0), y(v), x(1), y(v), "#ddd", 1));
            s.append(text(x(v), y(0) + 18, "middle", say("%.1f", v)));
            s.append(text(x(0) - 8, y(v) + 4, "end", say("%.1f", v)));
        }
        s.append(line(x(0), y(0), x(1), y(1), "#888", 1));
        for (Bin b : bins) {
            double[] interval = b.intervalRatio();
            double at = x(b.meanProbability());
            s.append(line(at, y(interval[0]), at, y(interval[1]), "#36c", 2));
            s.append(
                    say(
                            "<circle cx='%.1f' cy='%.1f' r='4' fill='#36c'/>\n",
                            at, y(b.rightRatio())));
            s.append(text(at + 7, y(b.rightRatio()) + 14, "start", "" + b.visits()));
        }
        s.append(text(x(0.5), 402, "middle", "probability of the first candidate"));
        s.append(text(x(0), 24, "start", "share of visits in which it is right (95 % intervals)"));
        s.append(
                text(
                        x(0.02),
                        y(0.95),
                        "start",
                        say(
                                "%d visits, expected calibration error %.3f",
                                visits, expectedError())));
        return s.append("</svg>\n").toString();
    }

    private static double x(double value) {
        return 60 + 370 * value;
    }

    private static double y(double value) {
        return 365 - 325 * value;
    }

    private static String line(
            double x1, double y1, double x2, double y2, String colour, int width) {
        return say(
                "<line x1='%.1f' y1='%.1f' x2='%.1f' y2='%.1f' stroke='%s' stroke-width='%d'/>\n",
                x1, y1, x2, y2, colour, width);
    }

    private static String text(double x, double y, String anchor, String words) {
        return say("<text x='%.1f' y='%.1f' text-anchor='%s'>%s</text>\n", x, y, anchor, words);
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
