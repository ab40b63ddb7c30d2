package tickover.report;

import java.awt.BasicStroke;
import java.awt.Color;
import java.text.SimpleDateFormat;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import org.jfree.chart.axis.DateAxis;
import org.jfree.chart.plot.IntervalMarker;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;
import tickover.diagnose.LevelBaseline;
import tickover.diagnose.LevelSeries;
import tickover.diagnose.NewestLevel;
import tickover.diagnose.RepairMark;
import tickover.diagnose.SeriesTrend;

/**
 * Draws a part's level over its visits in dB re 1 m/s², with standard errors, repair marks, and the
 * range that an unchanged part's next visit would stay within.
 */
public final class TrendPicture {
    private static final Color RANGE = new Color(0x1f, 0x4e, 0x9c, 22);
    private static final Color EARLIER = new Color(0x7a, 0x80, 0x88);

    private static final Color CLEAR = new Color(255, 255, 255, 0);

    private TrendPicture() {}

    /**
     * Draws a trend.
     *
     * @param trend the series
     * @param title above it
     * @return the plot
     */
    public static Picture of(SeriesTrend trend, String title) {
        YIntervalSeries now = new YIntervalSeries("since the baseline began");
        YIntervalSeries before = new YIntervalSeries("before the repair");
        YIntervalSeries strays = new YIntervalSeries("left out of the baseline");
        for (LevelSeries.Point p : trend.series().points()) {
            boolean stray = trend.strays().contains(p);
            add(stray ? strays : trend.current().contains(p) ? now : before, p);
        }
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        XYErrorRenderer renderer = new XYErrorRenderer();
        draw(data, renderer, now, PlotStyle.series(0), 0, true);
        draw(data, renderer, before, EARLIER, 1, true);
        draw(data, renderer, strays, PlotStyle.series(1), 0, false);
        XYPlot plot =
                new XYPlot(data, dates(), PlotStyle.axis("Part level, dB re 1 m/s²"), renderer);
        range(plot, trend);
        trend.restart().ifPresent(m -> mark(plot, m, trend));
        return new Picture(PlotStyle.chart(title, plot, data.getSeriesCount() > 1));
    }

    private static void draw(
            YIntervalSeriesCollection data,
            XYErrorRenderer renderer,
            YIntervalSeries series,
            Color paint,
            int dash,
            boolean joined) {
        if (series.getItemCount() > 0) {
            int index = data.getSeriesCount();
            data.addSeries(series);
            renderer.setSeriesPaint(index, paint);
            renderer.setSeriesStroke(index, PlotStyle.stroke(dash, 1.5f));
            renderer.setSeriesLinesVisible(index, joined);
        }
    }

    private static DateAxis dates() {
        DateAxis axis = new DateAxis("Visit");
        axis.setDateFormatOverride(new SimpleDateFormat("yyyy-MM", Locale.ROOT));
        // Wide margins around the labels make the axis choose fewer of them.
        axis.setTickLabelInsets(new RectangleInsets(2, 12, 2, 12));
        return axis;
    }

    private static void add(YIntervalSeries series, LevelSeries.Point p) {
        series.add(
                millis(p.visit().date()),
                p.levelDb(),
                p.levelDb() - p.standardErrorDb(),
                p.levelDb() + p.standardErrorDb());
    }

    private static double millis(LocalDateTime date) {
        return date.atZone(ZoneId.systemDefault()).toInstant().toEpochMilli();
    }

    private static void range(XYPlot plot, SeriesTrend trend) {
        if (trend.baseline().isEmpty() || trend.newest().isEmpty()) {
            return;
        }
        LevelBaseline baseline = trend.baseline().get();
        NewestLevel newest = trend.newest().get();
        IntervalMarker range =
                new IntervalMarker(
                        baseline.meanDb() - newest.limitDb(),
                        baseline.meanDb() + newest.limitDb(),
                        RANGE);
        // Text that lets its ground through cannot be printed as text.
        range.setAlpha(1);
        range.setLabel("unchanged: 19 of 20 visits stay within");
        range.setLabelFont(PlotStyle.TEXT);
        range.setLabelPaint(PlotStyle.INK);
        range.setLabelBackgroundColor(CLEAR);
        range.setLabelAnchor(RectangleAnchor.TOP_LEFT);
        range.setLabelTextAnchor(TextAnchor.TOP_LEFT);
        plot.addRangeMarker(range, Layer.BACKGROUND);
        ValueMarker mean =
                new ValueMarker(
                        baseline.meanDb(),
                        PlotStyle.series(0),
                        new BasicStroke(
                                1,
                                BasicStroke.CAP_BUTT,
                                BasicStroke.JOIN_ROUND,
                                10,
                                new float[] {2, 3},
                                0));
        plot.addRangeMarker(mean, Layer.BACKGROUND);
        // The range is part of the message, so it is shown whole.
        double low = plot.getRangeAxis().getLowerBound();
        double high = plot.getRangeAxis().getUpperBound();
        double margin = 1;
        plot.getRangeAxis()
                .setRange(
                        Math.min(low, baseline.meanDb() - newest.limitDb() - margin),
                        Math.max(high, baseline.meanDb() + newest.limitDb() + margin));
    }

    private static void mark(XYPlot plot, RepairMark repair, SeriesTrend trend) {
        ValueMarker marker =
                new ValueMarker(millis(repair.at()), PlotStyle.series(1), new BasicStroke(1.5f));
        marker.setAlpha(1);
        marker.setLabel(repair.text().isBlank() ? "repair" : repair.text());
        marker.setLabelFont(PlotStyle.TEXT);
        marker.setLabelPaint(PlotStyle.INK);
        marker.setLabelBackgroundColor(CLEAR);
        boolean late = millis(repair.at()) > middle(trend);
        marker.setLabelAnchor(late ? RectangleAnchor.BOTTOM_LEFT : RectangleAnchor.BOTTOM_RIGHT);
        marker.setLabelTextAnchor(late ? TextAnchor.BOTTOM_RIGHT : TextAnchor.BOTTOM_LEFT);
        plot.addDomainMarker(marker);
    }

    /** The middle of the time that is shown; a label towards it has room. */
    private static double middle(SeriesTrend trend) {
        List<LevelSeries.Point> points = trend.series().points();
        return (millis(points.get(0).visit().date())
                        + millis(points.get(points.size() - 1).visit().date()))
                / 2;
    }
}
