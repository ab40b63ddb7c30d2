package tickover.console;

import java.util.List;
import java.util.Locale;
import javafx.geometry.VPos;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.layout.Region;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import tickover.console.model.BenchVerdictWords;
import tickover.diagnose.BenchSpectrum;

/**
 * The rhythm of the ringing on the bench: how far each order of the envelope stands above its
 * surroundings, and where the bearing's own lines and their multiples are.
 */
final class BenchStrip extends Region {
    private static final double REACH_ORDERS = 16;
    private static final double LEAST_DB = 12;
    private static final int MULTIPLES = 3;

    private final Canvas canvas = new Canvas();
    private Paint paint;
    private double emPixels = 15;
    private BenchVerdictWords words;

    BenchStrip(Paint paint) {
        this.paint = paint;
        getChildren().add(canvas);
        setMinSize(200, 120);
    }

    void look(Paint next, double em) {
        paint = next;
        emPixels = em;
        requestLayout();
    }

    void show(BenchVerdictWords next) {
        words = next;
        boolean any = !next.spectra().isEmpty();
        setVisible(any);
        setManaged(any);
        setAccessibleText(
                any
                        ? "Rhythm of the ringing. " + String.join(" ", next.evidence())
                        : "No spectrum yet");
        requestLayout();
    }

    @Override
    protected double computePrefHeight(double width) {
        return Math.min(14 * emPixels, 260);
    }

    @Override
    protected void layoutChildren() {
        canvas.setWidth(Math.max(1, getWidth()));
        canvas.setHeight(Math.max(1, getHeight()));
        draw();
    }

    private void draw() {
        GraphicsContext g = canvas.getGraphicsContext2D();
        g.clearRect(0, 0, canvas.getWidth(), canvas.getHeight());
        if (words == null || words.spectra().isEmpty()) {
            return;
        }
        BenchSpectrum spectrum = words.spectra().get(0);
        double left = 3.2 * emPixels;
        double top = 1.6 * emPixels;
        double wide = getWidth() - left - 4;
        double high = getHeight() - top - 2.8 * emPixels;
        double topDb = LEAST_DB;
        for (int k = 0; k < spectrum.bins() && spectrum.orderOf(k) <= REACH_ORDERS; k++) {
            topDb = Math.max(topDb, spectrum.strengthDb(k));
        }
        g.setFont(Font.font("DejaVu Sans", 0.8 * emPixels));
        g.setStroke(paint.edge());
        g.strokeRect(left, top, wide, high);
        lines(g, left, top, wide, high);
        g.setStroke(paint.ink());
        g.setLineWidth(1);
        double perOrder = wide / REACH_ORDERS;
        for (int k = 0; k < spectrum.bins() && spectrum.orderOf(k) <= REACH_ORDERS; k++) {
            double x = left + spectrum.orderOf(k) * perOrder;
            double h = high * spectrum.strengthDb(k) / topDb;
            if (h >= 1) {
                g.strokeLine(x, top + high, x, top + high - h);
            }
        }
        axes(g, left, top, wide, high, topDb);
    }

    private void lines(GraphicsContext g, double left, double top, double wide, double high) {
        List<BenchVerdictWords.Line> own = words.lines();
        g.setTextAlign(TextAlignment.CENTER);
        g.setTextBaseline(VPos.BOTTOM);
        double freeFrom = left;
        for (BenchVerdictWords.Line line :
                own.stream().sorted((a, b) -> Double.compare(a.orders(), b.orders())).toList()) {
            for (int m = 1; m <= MULTIPLES && m * line.orders() <= REACH_ORDERS; m++) {
                double x = left + m * line.orders() / REACH_ORDERS * wide;
                g.setStroke(paint.next());
                g.setLineWidth(m == 1 ? 2 : 1);
                g.setLineDashes(6, 4);
                g.strokeLine(x, top, x, top + high);
                g.setLineDashes();
                double half = 0.21 * emPixels * line.words().length();
                if (m == 1 && x - half >= freeFrom) {
                    g.setFill(paint.next());
                    g.fillText(line.words(), x, top - 2);
                    freeFrom = x + half + 2;
                }
            }
        }
    }

    private void axes(
            GraphicsContext g, double left, double top, double wide, double high, double topDb) {
        g.setFill(paint.ink());
        g.setTextAlign(TextAlignment.RIGHT);
        g.setTextBaseline(VPos.TOP);
        g.fillText(String.format(Locale.ROOT, "%.0f dB", topDb), left - 4, top);
        g.setTextBaseline(VPos.BOTTOM);
        g.fillText("0", left - 4, top + high);
        g.setTextAlign(TextAlignment.CENTER);
        g.setTextBaseline(VPos.TOP);
        int step = wide < 22 * emPixels ? 4 : 2;
        for (int o = 0; o <= REACH_ORDERS; o += step) {
            double x = left + o / REACH_ORDERS * wide;
            g.fillText(Integer.toString(o), Math.min(x, left + wide - 6), top + high + 3);
        }
        g.setTextAlign(TextAlignment.LEFT);
        g.setTextBaseline(VPos.BOTTOM);
        g.fillText(
                String.format(
                        Locale.ROOT,
                        "Per turn; ringing between %.1f and %.1f kHz",
                        words.spectra().get(0).band().loHz() / 1000,
                        words.spectra().get(0).band().hiHz() / 1000),
                left,
                getHeight() - 1);
    }
}
