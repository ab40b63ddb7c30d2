package tickover.report;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Stroke;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleInsets;

/** One look for every plot: white ground, thin grid, series told apart by colour and by dash. */
final class PlotStyle {
    static final Font TEXT = new Font(Font.SANS_SERIF, Font.PLAIN, 12);
    static final Font TITLE = new Font(Font.SANS_SERIF, Font.BOLD, 15);
    static final Color INK = new Color(0x20, 0x24, 0x2a);
    private static final Color GRID = new Color(0xd0, 0xd4, 0xd8);

    /** Told apart with every common colour blindness: blue, orange, dark green, purple. */
    private static final Color[] SERIES = {
        new Color(0x1f, 0x4e, 0x9c),
        new Color(0xd9, 0x78, 0x0f),
        new Color(0x0b, 0x6b, 0x57),
        new Color(0x8b, 0x3a, 0x8b)
    };

    private static final float[][] DASHES = {{}, {7, 3}, {2, 3}, {9, 3, 2, 3}};

    private PlotStyle() {}

    static Color series(int index) {
        return SERIES[index % SERIES.length];
    }

    static Stroke stroke(int index, float width) {
        float[] dash = DASHES[index % DASHES.length];
        return dash.length == 0
                ? new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND)
                : new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dash, 0);
    }

    static NumberAxis axis(String label) {
        NumberAxis axis = new NumberAxis(label);
        axis.setAutoRangeIncludesZero(false);
        return axis;
    }

    static JFreeChart chart(String title, XYPlot plot, boolean legend) {
        plot.setBackgroundPaint(Color.WHITE);
        plot.setDomainGridlinePaint(GRID);
        plot.setRangeGridlinePaint(GRID);
        plot.setOutlinePaint(INK);
        dress(plot.getDomainAxis());
        dress(plot.getRangeAxis());
        JFreeChart chart = new JFreeChart(title, TITLE, plot, legend);
        chart.setBackgroundPaint(Color.WHITE);
        chart.setPadding(new RectangleInsets(10, 8, 8, 14));
        chart.getTitle().setPaint(INK);
        if (chart.getLegend() != null) {
            chart.getLegend().setItemFont(TEXT);
        }
        return chart;
    }

    static void dress(ValueAxis axis) {
        axis.setLabelFont(TEXT);
        axis.setTickLabelFont(TEXT);
        axis.setLabelPaint(INK);
        axis.setTickLabelPaint(INK);
    }
}
