package tickover.report;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jfree.data.xy.XYSeries;
import tickover.drive.PartLine;
import tickover.order.OrderSpectrum;

/** Draws an order spectrum with the lines that a part can make. */
public final class SpectrumPicture {
    private static final double FLOOR = 1e-9;

    private SpectrumPicture() {}

    /**
     * Draws a spectrum.
     *
     * @param spectrum averaged order spectrum
     * @param title above it
     * @param highestOrders highest order shown, per crank turn
     * @param lines marked and named; those above the highest order are left out
     * @return the plot
     */
    public static Picture of(
            OrderSpectrum spectrum, String title, double highestOrders, List<PartLine> lines) {
        Objects.requireNonNull(title, "title");
        return draw(
                spectrum,
                1,
                new LinePlot.Labels(title, "Order per crank turn", "Line rms, dB re 1 m/s²"),
                highestOrders,
                lines);
    }

    /**
     * Draws the spectrum of a band's squared envelope: how much of the band's power comes and goes
     * in each rhythm.
     *
     * @param spectrum averaged order spectrum of the squared envelope
     * @param mean mean of the squared envelope, (m/s²)², &gt; 0
     * @param title above it
     * @param highestOrders highest order shown, per crank turn
     * @param lines marked and named; those above the highest order are left out
     * @return the plot
     */
    public static Picture ofEnvelope(
            OrderSpectrum spectrum,
            double mean,
            String title,
            double highestOrders,
            List<PartLine> lines) {
        Objects.requireNonNull(title, "title");
        return draw(
                spectrum,
                mean,
                new LinePlot.Labels(
                        title, "Order per crank turn", "Swing of the power, dB re its mean"),
                highestOrders,
                lines);
    }

    private static Picture draw(
            OrderSpectrum spectrum,
            double reference,
            LinePlot.Labels labels,
            double highestOrders,
            List<PartLine> lines) {
        double[] rms = spectrum.values(OrderSpectrum.Scaling.LINE_RMS);
        XYSeries curve = new XYSeries("rms per line", false);
        for (int k = 1; k < rms.length && spectrum.orderOf(k) <= highestOrders; k++) {
            curve.add(
                    spectrum.orderOf(k),
                    20 * Math.log10(Math.max(rms[k] / reference, FLOOR)),
                    false);
        }
        return LinePlot.draw(labels, List.of(curve), marks(lines, highestOrders));
    }

    /** Where lines stand, each with its kind and order. */
    static List<LinePlot.Mark> marks(List<PartLine> lines, double highestOrders) {
        return lines.stream()
                .filter(l -> l.order() <= highestOrders)
                .sorted(Comparator.comparingDouble(PartLine::order))
                .map(
                        l ->
                                new LinePlot.Mark(
                                        l.order(),
                                        String.format(
                                                Locale.ROOT,
                                                "%s %.2f",
                                                Wording.line(l.kind()),
                                                l.order())))
                .toList();
    }
}
