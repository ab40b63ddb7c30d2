package tickover.report;

import java.awt.Color;
import java.util.List;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.Range;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/** Curves over one axis, with labelled verticals where parts have their lines. */
final class LinePlot {
    /**
     * What the plot says.
     *
     * @param title above it
     * @param xLabel with unit
     * @param yLabel with unit and reference
     */
    record Labels(String title, String xLabel, String yLabel) {}

    /**
     * A labelled vertical.
     *
     * @param x where
     * @param label what it is
     */
    record Mark(double x, String label) {}

    /** Labels of neighbouring lines stand in so many rows, so that they do not cover each other. */
    static final int LABEL_ROWS = 6;

    private static final int ROW_PIXELS = 13;

    private LinePlot() {}

    /** Draws one of several verticals; neighbours' labels stand in different rows. */
    private static ValueMarker marker(Mark mark, int index) {
        int row = index % LABEL_ROWS;
        ValueMarker marker = new ValueMarker(mark.x());
        marker.setPaint(PlotStyle.INK);
        // Text that lets its ground through cannot be printed as text.
        marker.setAlpha(1);
        marker.setStroke(PlotStyle.stroke(2, 0.8f));
        marker.setLabel(mark.label());
        marker.setLabelFont(PlotStyle.TEXT.deriveFont(10f));
        marker.setLabelBackgroundColor(Color.WHITE);
        marker.setLabelAnchor(RectangleAnchor.TOP_RIGHT);
        marker.setLabelTextAnchor(TextAnchor.TOP_LEFT);
        marker.setLabelOffset(new RectangleInsets(3 + row * ROW_PIXELS, 3, 3, 3));
        return marker;
    }

    /**
     * Draws curves.
     *
     * @param labels title and axes
     * @param curves at least one, named as in the legend, each with a point or more
     * @param marks may be empty
     * @return the plot
     */
    static Picture draw(Labels labels, List<XYSeries> curves, List<Mark> marks) {
        NumberAxis xAxis = PlotStyle.axis(labels.xLabel());
        NumberAxis yAxis = PlotStyle.axis(labels.yLabel());
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        XYSeriesCollection data = new XYSeriesCollection();
        for (int i = 0; i < curves.size(); i++) {
            data.addSeries(curves.get(i));
            renderer.setSeriesPaint(i, PlotStyle.series(i));
            renderer.setSeriesStroke(i, PlotStyle.stroke(i, 1.3f));
        }
        XYPlot plot = new XYPlot(data, xAxis, yAxis, renderer);
        double first = curves.stream().mapToDouble(XYSeries::getMinX).min().orElse(0);
        double last = curves.stream().mapToDouble(XYSeries::getMaxX).max().orElse(1);
        if (last > first) {
            xAxis.setRange(new Range(first, last));
        }
        for (int i = 0; i < marks.size(); i++) {
            plot.addDomainMarker(marker(marks.get(i), i), Layer.FOREGROUND);
        }
        return new Picture(PlotStyle.chart(labels.title(), plot, curves.size() > 1));
    }
}
