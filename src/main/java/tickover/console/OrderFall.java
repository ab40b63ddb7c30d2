package tickover.console;

import java.util.List;
import java.util.Locale;
import javafx.geometry.VPos;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.image.Image;
import javafx.scene.layout.Region;
import javafx.scene.paint.Color;
import javafx.scene.text.Font;
import javafx.scene.text.Text;
import javafx.scene.text.TextAlignment;
import tickover.console.model.FallHistory;
import tickover.console.model.FallPace;
import tickover.console.model.LiveModel;
import tickover.console.model.LiveState;
import tickover.diagnose.LiveAnalysis;

/**
 * The order waterfall: orders to the right, the newest row on top, older ones below it.
 *
 * <p>The words stand around the picture of the rows, never on it: nothing large is ever blended.
 */
final class OrderFall extends Region {
    private static final double LEFT_EM = 3.2;
    private static final double TOP_EM = 2.6;
    private static final double BOTTOM_EM = 2.6;
    private static final int BRACKET_PIXELS = 4;

    private final LiveModel model;
    private final FallPicture picture = new FallPicture();
    private final Canvas above = new Canvas();
    private final Canvas beside = new Canvas();
    private final Canvas below = new Canvas();
    private Paint paint;
    private double emPixels = 15;
    private final FallPace pace = new FallPace();
    private FallHistory shown;
    private long drawn;
    private int scale = -1;
    private double reach;
    private long framesDrawn;
    private List<Object> annotated = List.of();

    /** Colours from the quietest to the loudest, for the key. */
    private Raster colours = new Raster(1, 1);

    private final Text measure = new Text();

    OrderFall(LiveModel model, Paint paint) {
        this.model = model;
        this.paint = paint;
        setAccessibleText("Order waterfall");
        getChildren().addAll(picture, above, beside, below);
        // Else every row written into the picture would have the whole screen laid out anew.
        getChildren().forEach(child -> child.setManaged(false));
        setMinSize(240, 160);
        setOnMouseMoved(e -> model.point(orders(e.getX())));
    }

    void look(Paint next, double em) {
        paint = next;
        emPixels = em;
        colours = new Raster(1, 1);
        scale = -1;
        annotated = List.of();
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
        return Math.max(0, (x - left()) / picture.rowPixels() * model.reachOrders().get());
    }

    private int rowsPerS() {
        return model.frame().map(f -> f.setup().rowsPerS()).orElse(LiveAnalysis.ROWS_PER_S);
    }

    private boolean reaches(double orders) {
        return orders > 0 && orders <= model.reachOrders().get();
    }

    private double x(double orders) {
        return left() + orders / model.reachOrders().get() * picture.rowPixels();
    }

    @Override
    protected void layoutChildren() {
        int w = (int) Math.max(16, getWidth() - left() - 2);
        int h = (int) Math.max(16, getHeight() - top() - bottom());
        h = Math.min(h, FallHistory.ROWS);
        if (w != picture.rowPixels() || h != picture.rowCount()) {
            picture.size(w, h);
            scale = -1;
        }
        picture.relocate(left(), top());
        place(above, 0, 0, getWidth(), top());
        place(beside, 0, top(), left(), h);
        place(below, 0, top() + h, getWidth(), getHeight() - top() - h);
        annotated = List.of();
        draw();
        annotate();
    }

    private static void place(Canvas canvas, double x, double y, double width, double height) {
        canvas.setWidth(Math.max(1, width));
        canvas.setHeight(Math.max(1, height));
        canvas.relocate(x, y);
    }

    /**
     * Draws rows that are due; all of them where colours or places have changed.
     *
     * @return whether anything was drawn
     */
    boolean draw() {
        FallHistory fall = model.fall();
        long known = pace.upTo(fall.rows(), rowsPerS(), System.nanoTime());
        boolean scaled = scale != fall.scale() || reach != model.reachOrders().get();
        boolean anew =
                scaled
                        || !fall.equals(shown)
                        || known < drawn
                        || known - drawn > picture.rowCount();
        if (!anew && known == drawn) {
            return false;
        }
        if (anew) {
            shown = fall;
            scale = fall.scale();
            reach = model.reachOrders().get();
            drawn = Math.max(0, known - picture.rowCount());
            picture.clear(paint.table()[0]);
        }
        put(fall, known);
        picture.show();
        framesDrawn++;
        if (scaled) {
            annotate();
        }
        return true;
    }

    private void put(FallHistory fall, long known) {
        for (; drawn < known; drawn++) {
            int from = picture.nextRow();
            if (fall.isFresh(drawn) && drawn > 0) {
                broken(from);
            } else {
                fall.colour(
                        drawn, reach, paint.table(), picture.pixels(), from, picture.rowPixels());
            }
        }
    }

    /** A break is a dashed line, so that nobody takes it for a change of the engine. */
    private void broken(int from) {
        int loud = Paint.argb(paint.over());
        for (int x = 0; x < picture.rowPixels(); x++) {
            picture.pixels()[from + x] = x / 6 % 2 == 0 ? loud : paint.table()[0];
        }
    }

    /** Limit, lines and pointer over the rows. */
    private void overlay(LiveState state) {
        picture.beginOver();
        upright(state.limitOrders(), paint.over(), 2, 9, 7);
        for (LiveState.Mark m : state.marks()) {
            int wide = m.here() ? 2 : 1;
            upright(m.orders(), paint.over(), wide, m.shared() ? 2 : 12, m.shared() ? 6 : 5);
            level(m.fromOrders(), m.toOrders());
        }
        upright(state.pointedOrders(), paint.suspect(), 2, 1, 0);
        picture.endOver();
    }

    private void upright(double orders, Color colour, int wide, int dash, int gap) {
        if (!reaches(orders)) {
            return;
        }
        double from = Math.rint(x(orders) - left() - wide / 2.0);
        int most = picture.rowPixels() - wide;
        picture.upright(
                (int) Math.max(0, Math.min(most, from)), Paint.argb(colour), wide, dash, gap);
    }

    /** Where a line may stand: a bracket at either end. */
    private void level(double fromOrders, double toOrders) {
        int w = picture.rowPixels();
        int a = (int) Math.max(0, Math.min(w, Math.round(x(fromOrders) - left())));
        int b = (int) Math.max(a, Math.min(w, Math.round(x(toOrders) - left()) + 1));
        if (b > a) {
            picture.block(a, 0, b - a, BRACKET_PIXELS, paint.over());
            int low = picture.rowCount() - BRACKET_PIXELS;
            picture.block(a, low, b - a, BRACKET_PIXELS, paint.over());
        }
    }

    /** How many times rows were drawn; for measuring. */
    long framesDrawn() {
        return framesDrawn;
    }

    /** Draws the words around the rows, where they have changed. */
    void annotate() {
        LiveState state = model.state().get();
        List<Object> now =
                List.of(
                        state.marks(),
                        reaches(state.limitOrders()) ? Math.rint(x(state.limitOrders())) : 0,
                        state.pointedOrders(),
                        model.reachOrders().get(),
                        model.fall().topDb(),
                        model.fall().bottomDb(),
                        model.showsKnocks().get(),
                        rowsPerS(),
                        picture.rowPixels());
        if (now.equals(annotated)) {
            return;
        }
        annotated = now;
        for (Canvas canvas : List.of(above, beside, below)) {
            GraphicsContext g = canvas.getGraphicsContext2D();
            g.clearRect(0, 0, canvas.getWidth(), canvas.getHeight());
            g.save();
            // All draw in the same places; each canvas shows what falls into it.
            g.translate(-canvas.getLayoutX(), -canvas.getLayoutY());
            g.setFont(Font.font("DejaVu Sans", 0.8 * emPixels));
            g.setStroke(paint.edge());
            g.setLineWidth(1);
            g.strokeRect(
                    left() - 0.5, top() - 0.5, picture.rowPixels() + 1, picture.rowCount() + 1);
            orderAxis(g);
            timeAxis(g);
            names(g, state);
            pointer(g, state.pointedOrders());
            g.restore();
        }
        overlay(state);
    }

    private void orderAxis(GraphicsContext g) {
        double reachNow = model.reachOrders().get();
        double step = 1;
        while (reachNow / step > picture.rowPixels() / (4 * emPixels)) {
            step *= step == 2 ? 2.5 : 2;
        }
        double y = top() + picture.rowCount();
        g.setFill(paint.ink());
        g.setTextAlign(TextAlignment.CENTER);
        g.setTextBaseline(VPos.TOP);
        for (double o = 0; o <= reachNow + 1e-9; o += step) {
            g.setStroke(paint.ink());
            g.strokeLine(x(o), y, x(o), y + 4);
            g.setTextAlign(o + step > reachNow + 1e-9 ? TextAlignment.RIGHT : TextAlignment.CENTER);
            g.fillText(
                    String.format(Locale.ROOT, "%.0f", o),
                    Math.min(x(o), left() + picture.rowPixels()),
                    y + 5);
        }
        g.setTextAlign(TextAlignment.LEFT);
        g.setTextBaseline(VPos.BOTTOM);
        String what = model.showsKnocks().get() ? "knocks" : "motion";
        String name = "Order per crank turn, " + what;
        boolean roomy = picture.rowPixels() > (0.5 * name.length() + 18) * emPixels;
        String words =
                roomy ? name : picture.rowPixels() > 22 * emPixels ? "Order, " + what : "Order";
        g.fillText(words, left(), getHeight() - 2);
        key(g);
    }

    /** What the colours mean, beside the axis' name. */
    private void key(GraphicsContext g) {
        double top = model.fall().topDb();
        double h = 0.6 * emPixels;
        double w = Math.min(8 * emPixels, picture.rowPixels() / 5.0);
        double y = getHeight() - h - 4;
        String high = level(top) + " m/s²";
        g.setTextAlign(TextAlignment.RIGHT);
        g.setTextBaseline(VPos.BOTTOM);
        double right = left() + picture.rowPixels();
        g.fillText(high, right, getHeight() - 2);
        double wordsPixels = high.length() * 0.5 * emPixels;
        double from = right - wordsPixels - w;
        g.drawImage(colours((int) w, (int) h), Math.rint(from), Math.rint(y));
        g.setFill(paint.ink());
        g.fillText(level(model.fall().bottomDb()), from - 5, getHeight() - 2);
    }

    /** Drawn as large as it is shown: stretched, its edges would mix with what lies beside it. */
    private Image colours(int width, int height) {
        if (width != colours.width() || height != colours.height()) {
            int[] table = paint.table();
            colours = new Raster(Math.max(1, width), Math.max(1, height));
            for (int i = 0; i < colours.pixels().length; i++) {
                colours.pixels()[i] = table[i % colours.width() * table.length / colours.width()];
            }
        }
        return colours.image();
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
        int rowsPerS = rowsPerS();
        int stepS = picture.rowCount() / rowsPerS > 8 ? 5 : 2;
        g.fillText("now", left() - 6, top() + 0.4 * emPixels);
        for (int s = stepS; s * rowsPerS < picture.rowCount() - emPixels; s += stepS) {
            double y = top() + s * rowsPerS;
            g.setStroke(paint.ink());
            g.strokeLine(left() - 4, y, left(), y);
            g.fillText("−" + s + " s", left() - 6, y);
        }
    }

    /**
     * Names of lines; those of the other waterfall are faint: what knocks does not show in what
     * moves.
     */
    private void names(GraphicsContext g, LiveState state) {
        g.setTextBaseline(VPos.BOTTOM);
        g.setTextAlign(TextAlignment.LEFT);
        double[] free = {0, 0};
        for (LiveState.Mark m : state.marks().stream().sorted(OrderFall::byPlace).toList()) {
            if (m.orders() <= model.reachOrders().get()) {
                g.setFill(m.here() ? paint.next() : paint.soft());
                name(g, m.words() + (m.shared() ? " (shared)" : ""), x(m.orders()), free);
            }
        }
        if (reaches(state.limitOrders())) {
            g.setFill(paint.ink());
            name(g, "hand-held limit, 1 kHz", x(state.limitOrders()), free);
        }
    }

    /** In the first of two rows that has room; a name without room is told by pointing. */
    private void name(GraphicsContext g, String words, double x, double[] free) {
        measure.setFont(g.getFont());
        measure.setText(words);
        double width = measure.getLayoutBounds().getWidth();
        double from = Math.min(x - 3, getWidth() - width - 2);
        for (int row = 0; row < free.length; row++) {
            if (from >= free[row]) {
                g.fillText(words, from, top() - 3 - row * 1.1 * emPixels);
                free[row] = from + width + 8;
                return;
            }
        }
    }

    private static int byPlace(LiveState.Mark a, LiveState.Mark b) {
        return Double.compare(a.orders(), b.orders());
    }

    private void pointer(GraphicsContext g, double orders) {
        if (!reaches(orders)) {
            return;
        }
        double x = x(orders);
        double y = top() + picture.rowCount();
        g.setFill(paint.suspect());
        double e = 0.45 * emPixels;
        g.fillPolygon(new double[] {x, x - e, x + e}, new double[] {y, y + e, y + e}, 3);
    }
}
