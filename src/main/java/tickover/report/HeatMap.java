package tickover.report;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.List;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.annotations.XYDataImageAnnotation;
import org.jfree.chart.annotations.XYLineAnnotation;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.PaintScale;
import org.jfree.chart.title.PaintScaleLegend;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.Range;

/** A grid of levels drawn as colours, low orders left, early frames at the bottom. */
final class HeatMap {
    /** More cells than this in one direction are joined, the loudest of them shown. */
    private static final int LARGEST_RASTER = 1200;

    /** Colours below this distance under the loudest cell would show only the sensor's noise. */
    private static final double DEEPEST_DB = 80;

    /** From one row of labels to the next as a share of the plot's height. */
    private static final double LABEL_STEP = 0.055;

    private static final double QUIET_QUANTILE = 0.05;

    /**
     * What the axes say and span.
     *
     * @param title above the plot
     * @param xLabel with unit
     * @param yLabel with unit
     * @param levelLabel with unit and reference
     * @param x lowest and highest x
     * @param y lowest and highest y
     */
    record Frame(String title, String xLabel, String yLabel, String levelLabel, Range x, Range y) {}

    private HeatMap() {}

    /**
     * Draws the grid.
     *
     * @param frame axes
     * @param levelsDb one row per frame from the lowest y, one column per bin from the lowest x
     * @return the plot
     */
    static Picture draw(Frame frame, double[][] levelsDb) {
        return draw(frame, levelsDb, List.of());
    }

    /**
     * Draws the grid with labelled verticals.
     *
     * @param frame axes
     * @param levelsDb one row per frame from the lowest y, one column per bin from the lowest x
     * @param marks may be empty
     * @return the plot
     */
    static Picture draw(Frame frame, double[][] levelsDb, List<LinePlot.Mark> marks) {
        if (!(levelsDb.length >= 1 && levelsDb[0].length >= 1)) {
            throw new IllegalArgumentException("levelsDb is empty, need a row and a column");
        }
        Range shown = shownLevels(levelsDb);
        NumberAxis xAxis = PlotStyle.axis(frame.xLabel());
        NumberAxis yAxis = PlotStyle.axis(frame.yLabel());
        xAxis.setRange(frame.x());
        yAxis.setRange(frame.y());
        XYPlot plot = new XYPlot(null, xAxis, yAxis, null);
        plot.addAnnotation(
                new XYDataImageAnnotation(
                        raster(levelsDb, shown),
                        frame.x().getLowerBound(),
                        frame.y().getLowerBound(),
                        frame.x().getLength(),
                        frame.y().getLength()),
                false);
        for (int i = 0; i < marks.size(); i++) {
            mark(plot, frame, marks.get(i), i);
        }
        JFreeChart chart = PlotStyle.chart(frame.title(), plot, false);
        plot.setDomainGridlinesVisible(false);
        plot.setRangeGridlinesVisible(false);
        chart.addSubtitle(scale(frame.levelLabel(), shown));
        return new Picture(chart);
    }

    /** A vertical over the grid, which covers whatever the plot itself would draw. */
    private static void mark(XYPlot plot, Frame frame, LinePlot.Mark mark, int index) {
        double low = frame.y().getLowerBound();
        double length = frame.y().getLength();
        plot.addAnnotation(
                new XYLineAnnotation(
                        mark.x(), low, mark.x(), low + length, PlotStyle.stroke(2, 1), Color.WHITE),
                false);
        XYTextAnnotation label =
                new XYTextAnnotation(
                        "\u00a0" + mark.label() + "\u00a0\u00a0",
                        mark.x(),
                        low + length * (1 - LABEL_STEP * (index % LinePlot.LABEL_ROWS)));
        label.setFont(PlotStyle.TEXT.deriveFont(10f));
        label.setBackgroundPaint(Color.WHITE);
        label.setTextAnchor(TextAnchor.TOP_LEFT);
        plot.addAnnotation(label, false);
    }

    private static Range shownLevels(double[][] levelsDb) {
        double[] sorted =
                Arrays.stream(levelsDb)
                        .flatMapToDouble(Arrays::stream)
                        .filter(Double::isFinite)
                        .sorted()
                        .toArray();
        if (sorted.length == 0) {
            return new Range(-DEEPEST_DB, 0);
        }
        double top = sorted[sorted.length - 1];
        double quiet = sorted[(int) (QUIET_QUANTILE * (sorted.length - 1))];
        double bottom = Math.max(top - DEEPEST_DB, Math.min(quiet, top - 1));
        return new Range(bottom, top);
    }

    private static BufferedImage raster(double[][] levelsDb, Range shown) {
        int rows = Math.min(LARGEST_RASTER, levelsDb.length);
        int columns = Math.min(LARGEST_RASTER, levelsDb[0].length);
        double[][] loudest = new double[rows][columns];
        for (double[] row : loudest) {
            Arrays.fill(row, Double.NEGATIVE_INFINITY);
        }
        for (int i = 0; i < levelsDb.length; i++) {
            int row = (int) ((long) i * rows / levelsDb.length);
            for (int j = 0; j < levelsDb[i].length; j++) {
                int column = (int) ((long) j * columns / levelsDb[i].length);
                loudest[row][column] = Math.max(loudest[row][column], levelsDb[i][j]);
            }
        }
        BufferedImage image = new BufferedImage(columns, rows, BufferedImage.TYPE_INT_RGB);
        for (int row = 0; row < rows; row++) {
            for (int column = 0; column < columns; column++) {
                double position =
                        (loudest[row][column] - shown.getLowerBound()) / shown.getLength();
                image.setRGB(column, rows - 1 - row, ColourMap.rgb(position));
            }
        }
        return image;
    }

    private static PaintScaleLegend scale(String label, Range shown) {
        PaintScale paints =
                new PaintScale() {
                    @Override
                    public double getLowerBound() {
                        return shown.getLowerBound();
                    }

                    @Override
                    public double getUpperBound() {
                        return shown.getUpperBound();
                    }

                    @Override
                    public java.awt.Paint getPaint(double value) {
                        return ColourMap.colour(
                                (value - shown.getLowerBound()) / shown.getLength());
                    }
                };
        NumberAxis axis = PlotStyle.axis(label);
        PlotStyle.dress(axis);
        PaintScaleLegend legend = new PaintScaleLegend(paints, axis);
        legend.setPosition(RectangleEdge.RIGHT);
        legend.setMargin(new RectangleInsets(30, 8, 40, 8));
        legend.setStripWidth(14);
        legend.setSubdivisionCount(128);
        legend.setBackgroundPaint(java.awt.Color.WHITE);
        return legend;
    }
}
