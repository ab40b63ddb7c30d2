package tickover.report;

import java.util.List;
import java.util.Objects;
import org.jfree.data.Range;
import tickover.drive.PartLine;
import tickover.order.Waterfall;

/** Draws a waterfall as a heat map: orders to the right, time or speed upwards. */
public final class WaterfallPicture {
    private static final double FLOOR_MPS2 = 1e-9;

    private WaterfallPicture() {}

    /**
     * Draws a waterfall.
     *
     * @param waterfall at least one row
     * @param title above it
     * @param axis what its rows are laid along
     * @param highestOrders highest order shown, per crank turn
     * @return the plot
     */
    public static Picture of(
            Waterfall waterfall, String title, Waterfall.Axis axis, double highestOrders) {
        return of(waterfall, title, axis, highestOrders, List.of());
    }

    /**
     * Draws a waterfall with the lines that a part can make.
     *
     * @param waterfall at least one row
     * @param title above it
     * @param axis what its rows are laid along
     * @param highestOrders highest order shown, per crank turn
     * @param lines marked and named; those above the highest order are left out
     * @return the plot
     */
    public static Picture of(
            Waterfall waterfall,
            String title,
            Waterfall.Axis axis,
            double highestOrders,
            List<PartLine> lines) {
        Objects.requireNonNull(title, "title");
        List<Waterfall.Row> rows = waterfall.rows();
        if (rows.isEmpty()) {
            throw new IllegalArgumentException("waterfall has no rows, need one");
        }
        int bins = bins(waterfall, highestOrders);
        double[][] levelsDb = new double[rows.size()][bins];
        for (int i = 0; i < rows.size(); i++) {
            double[] rms = rows.get(i).rms();
            for (int k = 0; k < bins; k++) {
                // Order 0 is the sensor's offset, which would only darken everything else.
                double shown = k == 0 ? rms[Math.min(1, bins - 1)] : rms[k];
                levelsDb[i][k] = 20 * Math.log10(Math.max(shown, FLOOR_MPS2));
            }
        }
        boolean overSpeed = axis == Waterfall.Axis.SPEED;
        double first = place(rows.get(0), overSpeed);
        double last = place(rows.get(rows.size() - 1), overSpeed);
        double half = rows.size() > 1 ? (last - first) / (rows.size() - 1) / 2 : 0.5;
        return HeatMap.draw(
                new HeatMap.Frame(
                        title,
                        "Order per crank turn",
                        overSpeed ? "Crank speed, rpm" : "Time, s",
                        "rms per order bin, dB re 1 m/s²",
                        new Range(0, waterfall.orderOf(bins)),
                        new Range(first - half, last + half)),
                levelsDb,
                SpectrumPicture.marks(lines, highestOrders));
    }

    private static double place(Waterfall.Row row, boolean overSpeed) {
        return overSpeed ? row.rpm() : row.timeS();
    }

    /** Bins from order 0 to the highest order shown. */
    static int bins(Waterfall waterfall, double highestOrders) {
        int all = waterfall.rows().isEmpty() ? 0 : waterfall.rows().get(0).rms().length;
        int bins = 1;
        while (bins < all && waterfall.orderOf(bins) <= highestOrders) {
            bins++;
        }
        return bins;
    }
}
