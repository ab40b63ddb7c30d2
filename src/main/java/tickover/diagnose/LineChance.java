package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.PartLine;

/**
 * How strong the bearing statistic of a running engine comes out in one capture, for measuring how
 * often it says something where nothing is.
 *
 * <p>The statistic is what the ranking weighs: the logarithm of the odds of a comb at an order
 * against its neighbours, in nats, at the best order within the line's tolerance. Odds of k to 1
 * come by chance in at most one of k orders (Markov's inequality), so a claim of t nats within a
 * tolerance of m independent orders may come by chance in up to m exp(-t) of the cases.
 */
public final class LineChance {
    /** Orders this many steps apart say nothing of each other: twice the reach, and itself. */
    private static final int DEPENDENT_STEPS = 5;

    /** Decoys stand this share off their line, further than any tolerance reaches. */
    private static final double[] DECOYS = {-0.17, -0.11, 0.13, 0.19};

    private LineChance() {}

    /**
     * One line that was looked for.
     *
     * @param part the pulley
     * @param kind the line's kind
     * @param decoy whether it was looked for beside where it can be, where no part's line is known
     * @param nats the statistic
     * @param orders independent orders that were tried
     */
    public record Line(String part, String kind, boolean decoy, double nats, double orders) {
        public Line {
            Objects.requireNonNull(part, "part");
            Objects.requireNonNull(kind, "kind");
        }
    }

    /**
     * Looks for every bearing line of every part, and for each at decoys beside it.
     *
     * @param capture a capture
     * @param drive its drive
     * @return one entry per line and decoy within the range of the statistic
     */
    public static List<Line> of(CaptureMeasurement capture, DriveModel drive) {
        Objects.requireNonNull(capture, "capture");
        List<Line> out = new ArrayList<>();
        List<PartLine> all = new ArrayList<>();
        drive.parts().forEach(p -> all.addAll(p.lines()));
        for (DrivePart part : drive.parts()) {
            for (PartLine line : part.lines()) {
                boolean bearings =
                        part.bearings().stream().anyMatch(b -> line.source().equals(b.label()));
                if (!bearings) {
                    continue;
                }
                add(out, capture, line, line.order(), false);
                for (double off : DECOYS) {
                    double order = line.order() * (1 + off);
                    if (isFree(order, line.uncertaintyRatio(), all)) {
                        add(out, capture, line, order, true);
                    }
                }
            }
        }
        return out;
    }

    /** Whether no line, and no second or third harmonic of one, may stand within a tolerance. */
    private static boolean isFree(double order, double ratio, List<PartLine> all) {
        for (PartLine line : all) {
            for (int h = 1; h <= 3; h++) {
                if (Math.abs(h * line.order() / order - 1) < ratio + line.uncertaintyRatio()) {
                    return false;
                }
            }
        }
        return true;
    }

    private static void add(
            List<Line> out,
            CaptureMeasurement capture,
            PartLine line,
            double order,
            boolean decoy) {
        int from = RhythmScan.indexOf(order * (1 - line.uncertaintyRatio()));
        int to = RhythmScan.indexOf(order * (1 + line.uncertaintyRatio()));
        if (from < 0 || to >= RhythmScan.COUNT) {
            return;
        }
        double best = Double.NEGATIVE_INFINITY;
        for (int i = from; i <= to; i++) {
            best = Math.max(best, capture.lineScan().around(i));
        }
        out.add(
                new Line(
                        line.part(),
                        line.kind(),
                        decoy,
                        best,
                        Math.max(1, (to - from + 1.0) / DEPENDENT_STEPS)));
    }
}
