package tickover.report;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.order.OrderSpectrum;
import tickover.order.Waterfall;

/**
 * Writes a waterfall as CSV: one row per frame, {@code time_s}, {@code rpm}, then the value of each
 * order bin, with the bin's order as its column's head.
 */
public final class WaterfallCsv {
    private WaterfallCsv() {}

    /**
     * Writes a waterfall.
     *
     * @param waterfall the waterfall
     * @param highestOrders highest order written, per crank turn
     * @param scaling what the values of bins mean
     * @return the file's text, RFC 4180
     */
    public static String of(
            Waterfall waterfall, double highestOrders, OrderSpectrum.Scaling scaling) {
        StringWriter text = new StringWriter();
        int bins = WaterfallPicture.bins(waterfall, highestOrders);
        CsvWriter csv = CsvWriter.builder().build(text);
        List<String> head = new ArrayList<>(List.of("time_s", "rpm"));
        for (int k = 0; k < bins; k++) {
            head.add(order(waterfall.orderOf(k)));
        }
        csv.writeRecord(head);
        for (Waterfall.Row row : waterfall.rows()) {
            List<String> cells = new ArrayList<>();
            cells.add(String.format(Locale.ROOT, "%.6f", row.timeS()));
            cells.add(String.format(Locale.ROOT, "%.3f", row.rpm()));
            double[] values = waterfall.values(row, scaling);
            for (int k = 0; k < bins; k++) {
                cells.add(String.format(Locale.ROOT, "%.6g", values[k]));
            }
            csv.writeRecord(cells);
        }
        flush(csv);
        return text.toString();
    }

    /** The writer keeps the last few kilobytes to itself until it is told. */
    private static void flush(CsvWriter csv) {
        try {
            csv.flush();
        } catch (IOException e) {
            throw new UncheckedIOException("a string cannot fail to take text", e);
        }
    }

    /** An order without needless zeros. */
    private static String order(double value) {
        return java.math.BigDecimal.valueOf(value)
                .setScale(6, java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }
}
