package tickover.console;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javafx.geometry.Rectangle2D;
import javafx.scene.image.Image;
import javafx.scene.image.ImageView;
import javafx.scene.layout.Region;
import javafx.scene.paint.Color;
import javafx.scene.shape.Rectangle;

/**
 * Rows of pixels, the newest on top, and what stands still over them.
 *
 * <p>The rows are a ring of which two views show the two pieces, so that a new row writes itself
 * and nothing else, however large the picture. Upright lines over it are narrow pictures of their
 * own: nothing large is ever blended, which is what costs most where there is no graphics
 * processor.
 */
final class FallPicture extends Region {
    /** How an upright line is dashed. */
    private record Dashes(int colour, int wide, int dash, int gap) {}

    private final ImageView newer = new ImageView();
    private final ImageView older = new ImageView();
    private final List<ImageView> lines = new ArrayList<>();
    private final List<Rectangle> blocks = new ArrayList<>();
    private final Map<Dashes, Image> dashed = new HashMap<>();
    private Raster ring = new Raster(16, 16);

    /** Row of the ring that is shown on top. */
    private int top;

    private int written;
    private int linesUsed;
    private int blocksUsed;

    FallPicture() {
        for (ImageView view : List.of(newer, older)) {
            add(view);
            view.setSmooth(false);
        }
        // What moves in here moves nothing else on the screen.
        setManaged(false);
        setMouseTransparent(true);
    }

    private void add(javafx.scene.Node node) {
        node.setManaged(false);
        getChildren().add(node);
    }

    int rowPixels() {
        return ring.width();
    }

    int rowCount() {
        return ring.height();
    }

    /** Begins anew with another size; all is to be written then. */
    void size(int width, int height) {
        ring = new Raster(width, height);
        newer.setImage(ring.image());
        older.setImage(ring.image());
        resize(width, height);
        dashed.clear();
        top = 0;
        written = height;
    }

    /** Every row is of one colour, 0xffRRGGBB. */
    void clear(int colour) {
        Arrays.fill(ring.pixels(), colour);
        written = ring.height();
    }

    /** Pixels of all rows, of which those from {@link #nextRow} on may be written. */
    int[] pixels() {
        return ring.pixels();
    }

    /**
     * Moves all rows down by one.
     *
     * @return where the new row on top begins in {@link #pixels}
     */
    int nextRow() {
        top = top == 0 ? ring.height() - 1 : top - 1;
        written = Math.min(ring.height(), written + 1);
        return top * ring.width();
    }

    /** Shows what was written. */
    void show() {
        int h = ring.height();
        int w = ring.width();
        if (written == 0) {
            return;
        }
        boolean whole = top + written > h;
        ring.touched(whole ? 0 : top, whole ? h : written);
        written = 0;
        newer.setViewport(new Rectangle2D(0, top, w, h - top));
        older.setVisible(top > 0);
        if (top > 0) {
            older.setViewport(new Rectangle2D(0, 0, w, top));
            older.setY(h - top);
        }
    }

    /** What stands over the rows is laid anew from here on, until {@link #endOver}. */
    void beginOver() {
        linesUsed = 0;
        blocksUsed = 0;
    }

    /** An upright line from top to bottom. */
    void upright(int fromX, int colour, int wide, int dash, int gap) {
        if (linesUsed == lines.size()) {
            ImageView view = new ImageView();
            view.setSmooth(false);
            lines.add(view);
            add(view);
        }
        ImageView line = lines.get(linesUsed++);
        line.setImage(dashed.computeIfAbsent(new Dashes(colour, wide, dash, gap), this::draw));
        line.setX(fromX);
        line.setVisible(true);
    }

    private Image draw(Dashes of) {
        int h = ring.height();
        Raster line = new Raster(of.wide(), h);
        for (int y = 0; y < h; y++) {
            if (y % (of.dash() + of.gap()) < of.dash()) {
                Arrays.fill(line.pixels(), y * of.wide(), (y + 1) * of.wide(), of.colour());
            }
        }
        return line.image();
    }

    /** A filled rectangle. */
    void block(int x, int y, int width, int height, Color colour) {
        if (blocksUsed == blocks.size()) {
            Rectangle block = new Rectangle();
            block.setSmooth(false);
            blocks.add(block);
            add(block);
        }
        Rectangle block = blocks.get(blocksUsed++);
        block.setX(x);
        block.setY(y);
        block.setWidth(width);
        block.setHeight(height);
        block.setFill(colour);
        block.setVisible(true);
    }

    void endOver() {
        lines.subList(linesUsed, lines.size()).forEach(line -> line.setVisible(false));
        blocks.subList(blocksUsed, blocks.size()).forEach(block -> block.setVisible(false));
    }
}
