package tickover.console;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import javafx.geometry.VPos;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.layout.Region;
import javafx.scene.paint.Color;
import javafx.scene.text.Font;
import javafx.scene.text.Text;
import javafx.scene.text.TextAlignment;
import tickover.console.model.FallHistory;
import tickover.console.model.LiveModel;
import tickover.console.model.LiveState;

/**
 * The order waterfall: orders to the right, the newest row on top, older ones below it. The rows
 * lie in a ring of pixels, of which a new row writes one line; what is laid over them is drawn only
 * when it changes.
 */
final class OrderFall extends Region {
    private static final double LEFT_EM = 3.2;
    private static final double TOP_EM = 2.6;
    private static final double BOTTOM_EM = 2.6;

    private final LiveModel model;
    private final Canvas rows = new Canvas();
    private final Canvas over = new Canvas();
    private Raster ring = new Raster(1, 1);
    private Paint paint;
    private double emPixels = 15;

    /** The line of the ring that is on top. */
    private int head;

    private FallHistory shown;
    private long drawn;
    private int scale = -1;
    private double reach;
    private long framesDrawn;
    private final Text measure = new Text();

    OrderFall(LiveModel model, Paint paint) {
        this.model = model;
        this.paint = paint;
        setAccessibleText("Order waterfall");
        getChildren().addAll(rows, over);
        setMinSize(240, 160);
        rows.getGraphicsContext2D().setImageSmoothing(false);
        setOnMouseMoved(e -> model.point(orders(e.getX())));
    }

    void look(Paint next, double em) {
        paint = next;
        emPixels = em;
        scale = -1;
        requestLayout();
    }

    private double left() {
        return Math.ceil(LEFT_EM * emPixels);
    }

    private double top() {
        return Math.ceil(TOP_EM * emPixels);
    }

    private double bottom() {
        return Math.ceil(BOTTOM_EM * emPixels);
    }

    private double orders(double x) {
        return Math.max(0, (x - left()) / ring.width() * model.reachOrders().get());
    }

    private double x(double orders) {
        return left() + orders / model.reachOrders().get() * ring.width();
    }

    @Override
    protected void layoutChildren() {
        int w = (int) Math.max(16, getWidth() - left() - 2);
        int h = (int) Math.max(16, getHeight() - top() - bottom());
        h = Math.min(h, FallHistory.ROWS);
        if (w != ring.width() || h != ring.height()) {
            ring = new Raster(w, h);
            rows.setWidth(w);
            rows.setHeight(h);
            scale = -1;
        }
        rows.relocate(left(), top());
        over.setWidth(Math.max(1, getWidth()));
        over.setHeight(Math.max(1, getHeight()));
        draw();
        annotate();
    }

    /** Draws rows that are new; all of them where colours or places have changed. */
    void draw() {
        FallHistory fall = model.fall();
        boolean anew =
                shown != fall
                        || scale != fall.scale()
                        || reach != model.reachOrders().get()
                        || fall.rows() < drawn
                        || fall.rows() - drawn > ring.height();
        if (!anew && fall.rows() == drawn) {
            return;
        }
        if (anew) {
            shown = fall;
            boolean scaled = scale != fall.scale() || reach != model.reachOrders().get();
            scale = fall.scale();
            reach = model.reachOrders().get();
            drawn = Math.max(0, fall.rows() - ring.height());
            head = 0;
            Arrays.fill(ring.pixels(), paint.table()[0]);
            put(fall);
            ring.touched(0, ring.height());
            if (scaled) {
                annotate();
            }
        } else {
            put(fall);
        }
        GraphicsContext g = rows.getGraphicsContext2D();
        double w = ring.width();
        int upper = ring.height() - head;
        g.drawImage(ring.image(), 0, head, w, upper, 0, 0, w, upper);
        if (head > 0) {
            g.drawImage(ring.image(), 0, 0, w, head, 0, upper, w, head);
        }
        framesDrawn++;
    }

    private void put(FallHistory fall) {
        for (; drawn < fall.rows(); drawn++) {
            head = head == 0 ? ring.height() - 1 : head - 1;
            int from = head * ring.width();
            if (fall.isFresh(drawn) && drawn > 0) {
                broken(from);
            } else {
                fall.colour(drawn, reach, paint.table(), ring.pixels(), from, ring.width());
            }
            ring.touched(head, 1);
        }
    }

    /** A break is a dashed line, so that nobody takes it for a change of the engine. */
    private void broken(int from) {
        int loud = Paint.argb(paint.over());
        for (int x = 0; x < ring.width(); x++) {
            ring.pixels()[from + x] = x / 6 % 2 == 0 ? loud : paint.table()[0];
        }
    }

    /** How many times rows were drawn; for measuring. */
    long framesDrawn() {
        return framesDrawn;
    }

    /** Draws axes and what is laid over the rows. */
    void annotate() {
        LiveState state = model.state().get();
        GraphicsContext g = over.getGraphicsContext2D();
        g.clearRect(0, 0, over.getWidth(), over.getHeight());
        g.setFont(Font.font("DejaVu Sans", 0.8 * emPixels));
        g.setStroke(paint.edge());
        g.setLineWidth(1);
        g.setLineDashes();
        g.strokeRect(left() - 0.5, top() - 0.5, ring.width() + 1, ring.height() + 1);
        orderAxis(g);
        timeAxis(g);
        limit(g, state.limitOrders());
        marks(g, state.marks());
        pointer(g, state.pointedOrders());
    }

    private void orderAxis(GraphicsContext g) {
        double reachNow = model.reachOrders().get();
        double step = 1;
        while (reachNow / step > ring.width() / (4 * emPixels)) {
            step *= step == 2 ? 2.5 : 2;
        }
        double y = top() + ring.height();
        g.setFill(paint.ink());
        g.setTextAlign(TextAlignment.CENTER);
        g.setTextBaseline(VPos.TOP);
        for (double o = 0; o <= reachNow + 1e-9; o += step) {
            g.setStroke(paint.ink());
            g.strokeLine(x(o), y, x(o), y + 4);
            g.setTextAlign(o + step > reachNow + 1e-9 ? TextAlignment.RIGHT : TextAlignment.CENTER);
            g.fillText(
                    String.format(Locale.ROOT, "%.0f", o),
                    Math.min(x(o), left() + ring.width()),
                    y + 5);
        }
        g.setTextAlign(TextAlignment.LEFT);
        g.setTextBaseline(VPos.BOTTOM);
        String what = model.showsKnocks().get() ? "knocks" : "motion";
        String name = "Order per crank turn, " + what;
        boolean roomy = ring.width() > (0.5 * name.length() + 18) * emPixels;
        String words = roomy ? name : ring.width() > 22 * emPixels ? "Order, " + what : "Order";
        g.fillText(words, left(), over.getHeight() - 2);
        key(g);
    }

    /** What the colours mean, beside the axis' name. */
    private void key(GraphicsContext g) {
        double top = model.fall().topDb();
        double h = 0.6 * emPixels;
        double w = Math.min(8 * emPixels, ring.width() / 5.0);
        double y = over.getHeight() - h - 4;
        String high = level(top) + " m/s²";
        g.setTextAlign(TextAlignment.RIGHT);
        g.setTextBaseline(VPos.BOTTOM);
        double right = left() + ring.width();
        g.fillText(high, right, over.getHeight() - 2);
        double wordsPixels = high.length() * 0.5 * emPixels;
        double from = right - wordsPixels - w;
        int[] table = paint.table();
        for (int i = 0; i < w; i++) {
            int c = table[(int) (i / w * table.length)];
            g.setFill(Color.rgb(c >> 16 & 255, c >> 8 & 255, c & 255));
            g.fillRect(from + i, y, 1.5, h);
        }
        g.setFill(paint.ink());
        g.fillText(level(top - FallHistory.SPAN_DB), from - 5, over.getHeight() - 2);
    }

    private static String level(double db) {
        double value = Math.pow(10, db / 20);
        return value >= 1
                ? String.format(Locale.ROOT, "%.0f", value)
                : String.format(Locale.ROOT, value >= 0.01 ? "%.2f" : "%.3f", value);
    }

    private void timeAxis(GraphicsContext g) {
        g.setFill(paint.ink());
        g.setTextAlign(TextAlignment.RIGHT);
        g.setTextBaseline(VPos.CENTER);
        int rowsPerS = model.frame().map(f -> f.setup().rowsPerS()).orElse(25);
        int stepS = ring.height() / rowsPerS > 8 ? 5 : 2;
        g.fillText("now", left() - 6, top() + 0.4 * emPixels);
        for (int s = stepS; s * rowsPerS < ring.height() - emPixels; s += stepS) {
            double y = top() + s * rowsPerS;
            g.setStroke(paint.ink());
            g.strokeLine(left() - 4, y, left(), y);
            g.fillText("−" + s + " s", left() - 6, y);
        }
    }

    private void limit(GraphicsContext g, double orders) {
        if (!(orders > 0 && orders < model.reachOrders().get())) {
            return;
        }
        double x = x(orders);
        g.setStroke(paint.over());
        g.setLineWidth(2);
        g.setLineDashes(8, 6);
        g.strokeLine(x, top(), x, top() + ring.height());
        g.setLineDashes();
        g.setFill(paint.over());
        g.setTextBaseline(VPos.BOTTOM);
        boolean roomy = x + 12 * emPixels < over.getWidth();
        g.setTextAlign(roomy ? TextAlignment.LEFT : TextAlignment.RIGHT);
        g.fillText(
                "hand-held limit, 1 kHz", roomy ? x + 5 : x - 5, top() + ring.height() - emPixels);
    }

    /** Lines of the other waterfall are left thin: what knocks does not show in what moves. */
    private void marks(GraphicsContext g, List<LiveState.Mark> marks) {
        g.setTextBaseline(VPos.BOTTOM);
        g.setTextAlign(TextAlignment.LEFT);
        double[] free = {0, 0};
        double bottom = top() + ring.height();
        for (LiveState.Mark m : marks.stream().sorted(OrderFall::byPlace).toList()) {
            if (m.orders() > model.reachOrders().get()) {
                continue;
            }
            double x = x(m.orders());
            g.setStroke(paint.over());
            g.setLineWidth(m.here() ? 2 : 1);
            g.setLineDashes(m.shared() ? new double[] {2, 6} : new double[] {12, 5});
            g.strokeLine(x, top(), x, bottom);
            g.setLineDashes();
            bracket(g, m, top() + 2);
            bracket(g, m, bottom - 2);
            name(g, m, x, free);
        }
    }

    /** Where it may stand. */
    private void bracket(GraphicsContext g, LiveState.Mark m, double y) {
        double a = Math.max(left(), x(m.fromOrders()));
        double b = Math.min(left() + ring.width(), Math.max(a + 2, x(m.toOrders())));
        g.setLineWidth(4);
        g.strokeLine(a, y, b, y);
    }

    /** In the first of two rows that has room; a name without room is told by pointing. */
    private void name(GraphicsContext g, LiveState.Mark m, double x, double[] free) {
        String words = m.words() + (m.shared() ? " (shared)" : "");
        measure.setFont(g.getFont());
        measure.setText(words);
        double width = measure.getLayoutBounds().getWidth();
        double from = Math.min(x - 3, over.getWidth() - width - 2);
        for (int row = 0; row < free.length; row++) {
            if (from >= free[row]) {
                double y = top() - 3 - row * 1.1 * emPixels;
                g.setFill(m.here() ? paint.next() : paint.soft());
                g.fillText(words, from, y);
                free[row] = from + width + 8;
                return;
            }
        }
    }

    private static int byPlace(LiveState.Mark a, LiveState.Mark b) {
        return Double.compare(a.orders(), b.orders());
    }

    private void pointer(GraphicsContext g, double orders) {
        if (!(orders > 0 && orders <= model.reachOrders().get())) {
            return;
        }
        double x = x(orders);
        double bottom = top() + ring.height();
        g.setStroke(paint.over());
        g.setLineWidth(1);
        g.strokeLine(x, top(), x, bottom);
        g.setFill(paint.suspect());
        double e = 0.45 * emPixels;
        g.fillPolygon(
                new double[] {x, x - e, x + e}, new double[] {bottom, bottom + e, bottom + e}, 3);
    }
}
