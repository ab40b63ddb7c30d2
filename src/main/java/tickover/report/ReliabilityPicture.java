package tickover.report;

import java.util.List;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;

/** Draws whether probabilities mean what they say: how often right, over what was said. */
public final class ReliabilityPicture {
    /**
     * Findings that were given about the same probability.
     *
     * @param meanProbability what they were given, 0 to 1
     * @param rightRatio share of them that were right
     * @param lowRatio lower end of that share's 95 % interval
     * @param highRatio its upper end
     */
    public record Point(
            double meanProbability, double rightRatio, double lowRatio, double highRatio) {}

    private ReliabilityPicture() {}

    /**
     * Draws the points beside the line on which all would lie.
     *
     * @param points any number
     * @param title above them
     * @return the plot
     */
    public static Picture of(List<Point> points, String title) {
        YIntervalSeries seen = new YIntervalSeries("seen, with 95 % intervals");
        for (Point p : points) {
            seen.add(p.meanProbability(), p.rightRatio(), p.lowRatio(), p.highRatio());
        }
        YIntervalSeries ideal = new YIntervalSeries("as it should be");
        ideal.add(0, 0, 0, 0);
        ideal.add(1, 1, 1, 1);
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        data.addSeries(seen);
        data.addSeries(ideal);
        XYErrorRenderer renderer = new XYErrorRenderer();
        for (int i = 0; i < data.getSeriesCount(); i++) {
            renderer.setSeriesPaint(i, PlotStyle.series(i));
            renderer.setSeriesStroke(i, PlotStyle.stroke(i, 1.5f));
        }
        renderer.setSeriesLinesVisible(1, true);
        renderer.setSeriesShapesVisible(1, false);
        NumberAxis xAxis = PlotStyle.axis("Probability of the first candidate");
        NumberAxis yAxis = PlotStyle.axis("Share of visits in which it is right");
        xAxis.setRange(0, 1);
        yAxis.setRange(0, 1);
        XYPlot plot = new XYPlot(data, xAxis, yAxis, renderer);
        return new Picture(PlotStyle.chart(title, plot, true));
    }
}
