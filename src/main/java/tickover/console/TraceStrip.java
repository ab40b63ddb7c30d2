package tickover.console;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.geometry.VPos;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.image.ImageView;
import javafx.scene.layout.Region;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import tickover.session.LiveFrame;

/**
 * The latest second of the first axis, the newest at the right: between the lowest and the highest
 * value of every column all is filled. Gravity is taken off; the scale follows in steps that it
 * names.
 */
final class TraceStrip extends Region {
    private static final double WORDS_EM = 4.2;

    /** Half ranges that the scale can have, m/s². */
    private static final double[] SCALES = {
        0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 5000
    };

    /** A smaller scale is taken when the trace has filled less than this of it. */
    private static final double SMALL_RATIO = 0.3;

    /** And has done so for so many drawings. */
    private static final int PATIENCE = 50;

    /** Not drawn more often than this, s: with something else, and alone. */
    private static final double AMID_S = 0.06;

    private static final double ALONE_S = 0.1;

    private final ImageView view = new ImageView();
    private final Canvas words = new Canvas();
    private Raster raster = new Raster(1, 1);
    private Paint paint;
    private double emPixels = 15;
    private int scale = 3;
    private int small;
    private long drawnNs = System.nanoTime();
    private long drawnStretches;

    private final Supplier<Optional<LiveFrame>> latest;

    /**
     * Makes a strip.
     *
     * @param paint colours
     * @param latest what is to be drawn now, empty before anything was felt
     */
    TraceStrip(Paint paint, Supplier<Optional<LiveFrame>> latest) {
        this.paint = paint;
        this.latest = latest;
        setAccessibleText("Trace of the latest second");
        getChildren().addAll(view, words);
        // Else every drawing would have the whole screen laid out anew.
        getChildren().forEach(child -> child.setManaged(false));
        setMinSize(160, 60);
    }

    void look(Paint next, double em) {
        paint = next;
        emPixels = em;
        requestLayout();
        annotate();
        draw();
    }

    @Override
    protected double computePrefHeight(double width) {
        // Large text must leave room for the waterfall below.
        return Math.min(7 * emPixels, 120);
    }

    @Override
    protected void layoutChildren() {
        double left = Math.ceil(WORDS_EM * emPixels);
        int w = (int) Math.max(16, getWidth() - left - 2);
        int h = (int) Math.max(16, getHeight() - 4);
        if (w != raster.width() || h != raster.height()) {
            raster = new Raster(w, h);
            view.setImage(raster.image());
            draw();
        }
        view.relocate(left, 2);
        // Beside the trace and not over it, for nothing large shall be blended.
        words.setWidth(left);
        words.setHeight(Math.max(1, getHeight()));
        annotate();
    }

    private void blank() {
        Arrays.fill(raster.pixels(), Paint.argb(paint.ground()));
        line(raster.height() / 2);
        raster.touched(0, raster.height());
    }

    private void line(int y) {
        int from = y * raster.width();
        Arrays.fill(raster.pixels(), from, from + raster.width(), Paint.argb(paint.edge()));
    }

    /**
     * Draws what was felt last, if that was not done just now: a second of it hardly moves in
     * between.
     *
     * @param amid whether something else is drawn in this frame anyway
     */
    void drawIfDue(boolean amid) {
        long now = System.nanoTime();
        double agoS = (now - drawnNs) / 1e9;
        long stretches = latest.get().map(LiveFrame::stretches).orElse(0L);
        if (isVisible() && stretches != drawnStretches && agoS >= (amid ? AMID_S : ALONE_S)) {
            drawnNs = now;
            drawnStretches = stretches;
            draw();
        }
    }

    /** Draws what was felt last, or an empty strip before anything was. */
    void draw() {
        latest.get().ifPresentOrElse(this::draw, this::blank);
    }

    private void draw(LiveFrame frame) {
        fit(frame);
        int w = raster.width();
        int h = raster.height();
        int[] pixels = raster.pixels();
        Arrays.fill(pixels, Paint.argb(paint.ground()));
        line(h / 2);
        int ink = Paint.argb(frame.isClipped() ? paint.suspect() : paint.next());
        double perMps2 = (h / 2.0 - 1) / SCALES[scale];
        long end = frame.stretches();
        long first = Math.max(0, end - LiveFrame.TRACE);
        double perPixel = (double) LiveFrame.TRACE / w;
        int before = -1;
        for (int x = 0; x < w; x++) {
            long from = end - LiveFrame.TRACE + (long) (x * perPixel);
            long to = Math.max(from + 1, end - LiveFrame.TRACE + (long) ((x + 1) * perPixel));
            if (from < first) {
                continue;
            }
            float low = Float.POSITIVE_INFINITY;
            float high = Float.NEGATIVE_INFINITY;
            for (long s = from; s < Math.min(end, to); s++) {
                low = Math.min(low, frame.low(s));
                high = Math.max(high, frame.high(s));
            }
            int top = place(high - frame.meanMps2(), perMps2, h);
            int bottom = place(low - frame.meanMps2(), perMps2, h);
            if (before >= 0) {
                // Joined to the column before, so that a slow wave is a line and not dots.
                top = Math.min(top, before);
                bottom = Math.max(bottom, before);
            }
            for (int y = top; y <= bottom; y++) {
                pixels[y * w + x] = ink;
            }
            before = place((high + low) / 2.0 - frame.meanMps2(), perMps2, h);
        }
        raster.touched(0, h);
    }

    private static int place(double mps2, double perMps2, int height) {
        int y = (int) Math.round(height / 2.0 - mps2 * perMps2);
        return Math.max(0, Math.min(height - 1, y));
    }

    private void fit(LiveFrame frame) {
        double largest = 0;
        for (long s = Math.max(0, frame.stretches() - LiveFrame.TRACE);
                s < frame.stretches();
                s++) {
            double high = frame.high(s) - frame.meanMps2();
            double low = frame.meanMps2() - frame.low(s);
            largest = Math.max(largest, Math.max(high, low));
        }
        int now = scale;
        while (scale + 1 < SCALES.length && largest > SCALES[scale]) {
            scale++;
        }
        small = scale > 0 && largest < SMALL_RATIO * SCALES[scale] ? small + 1 : 0;
        if (small > PATIENCE) {
            scale--;
            small = 0;
        }
        if (scale != now) {
            annotate();
        }
    }

    private void annotate() {
        GraphicsContext g = words.getGraphicsContext2D();
        g.clearRect(0, 0, words.getWidth(), words.getHeight());
        g.setFill(paint.ink());
        g.setFont(Font.font("DejaVu Sans", 0.8 * emPixels));
        g.setTextAlign(TextAlignment.RIGHT);
        double right = Math.ceil(WORDS_EM * emPixels) - 6;
        String end = String.format(Locale.ROOT, "%s", trim(SCALES[scale]));
        g.setTextBaseline(VPos.TOP);
        g.fillText("+" + end, right, 2);
        if (getHeight() > 3.4 * emPixels) {
            g.setTextBaseline(VPos.CENTER);
            g.fillText("m/s²", right, getHeight() / 2);
        }
        g.setTextBaseline(VPos.BOTTOM);
        g.fillText("−" + end, right, getHeight() - 2);
    }

    private static String trim(double value) {
        return value < 1 ? Double.toString(value) : Long.toString(Math.round(value));
    }
}
