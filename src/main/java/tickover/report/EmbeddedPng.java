package tickover.report;

import java.awt.Graphics2D;
import java.awt.Image;
import java.awt.image.BufferedImage;
import java.awt.image.RenderedImage;
import java.awt.image.renderable.RenderableImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Base64;
import javax.imageio.ImageIO;
import org.apache.batik.svggen.DefaultImageHandler;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.w3c.dom.Element;

/**
 * Puts images into SVG as PNG data. The library's own handler for that looks for an encoder in
 * another of its archives; the platform has one.
 */
final class EmbeddedPng extends DefaultImageHandler {
    private static final String LINK_NAMESPACE = "http://www.w3.org/1999/xlink";

    @Override
    protected void handleHREF(Image image, Element element, SVGGeneratorContext context) {
        BufferedImage copy =
                new BufferedImage(
                        image.getWidth(null), image.getHeight(null), BufferedImage.TYPE_INT_ARGB);
        Graphics2D g = copy.createGraphics();
        g.drawImage(image, 0, 0, null);
        g.dispose();
        link(element, copy);
    }

    @Override
    protected void handleHREF(RenderedImage image, Element element, SVGGeneratorContext context) {
        link(element, image);
    }

    @Override
    protected void handleHREF(RenderableImage image, Element element, SVGGeneratorContext context) {
        link(element, image.createDefaultRendering());
    }

    private static void link(Element element, RenderedImage image) {
        element.setAttributeNS(LINK_NAMESPACE, "xlink:href", address(encode(image)));
    }

    /** The bytes of a PNG file as an address that needs no other file. */
    static String address(byte[] png) {
        return "data:image/png;base64," + Base64.getEncoder().encodeToString(png);
    }

    /** Encodes an image as a PNG file. */
    static byte[] encode(RenderedImage image) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, "png", bytes);
        } catch (IOException e) {
            throw new UncheckedIOException("encoding a PNG in memory failed", e);
        }
        return bytes.toByteArray();
    }
}
