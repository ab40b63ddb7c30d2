package tickover.console;

import java.nio.IntBuffer;
import javafx.geometry.Rectangle2D;
import javafx.scene.image.PixelBuffer;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;

/** An image whose pixels are written as numbers. */
final class Raster {
    private final int width;
    private final int height;
    private final int[] pixels;
    private final PixelBuffer<IntBuffer> buffer;
    private final WritableImage image;

    Raster(int width, int height) {
        this.width = width;
        this.height = height;
        IntBuffer ints = IntBuffer.allocate(width * height);
        this.pixels = ints.array();
        this.buffer = new PixelBuffer<>(width, height, ints, PixelFormat.getIntArgbPreInstance());
        this.image = new WritableImage(buffer);
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    /** Row by row, 0xffRRGGBB; what is written shows after {@link #touched}. */
    int[] pixels() {
        return pixels;
    }

    WritableImage image() {
        return image;
    }

    void touched(int fromRow, int rows) {
        Rectangle2D part = new Rectangle2D(0, fromRow, width, rows);
        buffer.updateBuffer(b -> part);
    }
}
