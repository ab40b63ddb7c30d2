package tickover.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jfree.data.xy.XYSeries;
import tickover.diagnose.BenchLine;
import tickover.diagnose.BenchPattern;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchSpectrum;
import tickover.drive.BearingOrders;

/** Draws a bench record's envelope order spectrum with the bearing's lines named. */
public final class BenchPicture {
    /** Room to the right of the second harmonic of the fastest line. */
    private static final double ROOM_RATIO = 1.12;

    private static final double BY_CHANCE = 0.05;

    private BenchPicture() {}

    /**
     * Draws it.
     *
     * @param result what the record came to
     * @param bearing its orders without slip
     * @param name what was recorded
     * @return the plot
     */
    public static Picture of(BenchResult result, BearingOrders bearing, String name) {
        Objects.requireNonNull(name, "name");
        BenchSpectrum spectrum = result.spectrum();
        double fastest = Math.max(bearing.innerRaceOrder(), 2 * bearing.ballSpinOrder());
        double highest = ROOM_RATIO * 2 * fastest;
        XYSeries curve = new XYSeries("envelope", false);
        for (int k = 1; k < spectrum.bins() && spectrum.orderOf(k) <= highest; k++) {
            curve.add(spectrum.orderOf(k), spectrum.strengthDb(k), false);
        }
        List<LinePlot.Mark> marks = new ArrayList<>();
        for (BenchPattern p : result.patterns()) {
            // Where nothing stands out, the best fit within the tolerance means nothing.
            double order =
                    p.falseAlarmProbability() < BY_CHANCE
                            ? p.orderFound()
                            : p.orderFound() / (1 + p.deviationRatio());
            for (int h = 1; h <= 2; h++) {
                marks.add(
                        new LinePlot.Mark(
                                h * order,
                                String.format(
                                        Locale.ROOT,
                                        "%s%s %.2f",
                                        h == 1 ? "" : h + " × ",
                                        word(p.fault()),
                                        h * order)));
            }
        }
        for (BenchLine line : result.lines()) {
            boolean named = line.fault().equals(result.verdict().word());
            if (named && line.text().endsWith("sideband of harmonic 1")) {
                marks.add(
                        new LinePlot.Mark(
                                line.order(),
                                String.format(Locale.ROOT, "sideband %.2f", line.order())));
            }
        }
        marks.sort((a, b) -> Double.compare(a.x(), b.x()));
        String title =
                String.format(
                        Locale.ROOT,
                        "%s: %s, %.0f rpm",
                        name,
                        result.verdict().word(),
                        result.speedRpm());
        String x =
                String.format(
                        Locale.ROOT,
                        "Order per turn (squared envelope, %.1f to %.1f kHz, channel %s)",
                        spectrum.band().loHz() / 1000,
                        spectrum.band().hiHz() / 1000,
                        (char) ('x' + spectrum.band().channel()));
        return LinePlot.draw(
                new LinePlot.Labels(title, x, "Power over its surroundings, dB"),
                List.of(curve),
                marks);
    }

    private static String word(String fault) {
        return switch (fault) {
            case "outer-ring" -> "outer ring";
            case "inner-ring" -> "inner ring";
            case "rolling-element" -> "ball";
            default -> fault;
        };
    }
}
