package tickover.report;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import org.jfree.chart.axis.DateAxis;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;

/** Draws a part's levels over its visits, with their errors. */
public final class TrendPicture {
    /**
     * One visit's level.
     *
     * @param date when
     * @param levelRmsMps2 level, m/s²
     * @param standardErrorMps2 its standard error, m/s²
     */
    public record Level(LocalDateTime date, double levelRmsMps2, double standardErrorMps2) {
        public Level {
            Objects.requireNonNull(date, "date");
            if (!(levelRmsMps2 >= 0 && standardErrorMps2 >= 0)) {
                throw new IllegalArgumentException(
                        "levelRmsMps2="
                                + levelRmsMps2
                                + ", standardErrorMps2="
                                + standardErrorMps2
                                + ", need >= 0 m/s²");
            }
        }
    }

    private TrendPicture() {}

    /**
     * Draws a trend.
     *
     * @param levels at least one, oldest first
     * @param title above it
     * @return the plot
     */
    public static Picture of(List<Level> levels, String title) {
        YIntervalSeries series = new YIntervalSeries("level ± one standard error");
        for (Level l : levels) {
            long date = l.date().atZone(ZoneId.systemDefault()).toInstant().toEpochMilli();
            series.add(
                    (double) date,
                    l.levelRmsMps2(),
                    Math.max(0, l.levelRmsMps2() - l.standardErrorMps2()),
                    l.levelRmsMps2() + l.standardErrorMps2());
        }
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        data.addSeries(series);
        XYErrorRenderer renderer = new XYErrorRenderer();
        renderer.setDefaultLinesVisible(true);
        renderer.setSeriesPaint(0, PlotStyle.series(0));
        renderer.setSeriesStroke(0, PlotStyle.stroke(0, 1.5f));
        NumberAxis yAxis = PlotStyle.axis("Level rms, m/s²");
        yAxis.setAutoRangeIncludesZero(true);
        DateAxis xAxis = new DateAxis("Visit");
        XYPlot plot = new XYPlot(data, xAxis, yAxis, renderer);
        return new Picture(PlotStyle.chart(title, plot, false));
    }
}
