package tickover.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.report.Picture;
import tickover.report.ReliabilityPicture;
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

    /** A diagram: how often right over probability. */
    Picture picture() {
        return ReliabilityPicture.of(
                bins.stream()
                        .map(
                                b ->
                                        new ReliabilityPicture.Point(
                                                b.meanProbability(),
                                                b.rightRatio(),
                                                b.intervalRatio()[0],
                                                b.intervalRatio()[1]))
                        .toList(),
                String.format(
                        Locale.ROOT,
                        "%d visits, expected calibration error %.3f",
                        visits,
                        expectedError()));
    }
}
