package tickover.report;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.StringWriter;
import java.util.Objects;
import org.apache.batik.dom.GenericDOMImplementation;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.batik.svggen.SVGGraphics2DIOException;
import org.apache.batik.svggen.SVGIDGenerator;
import org.jfree.chart.JFreeChart;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** A finished plot, ready to be drawn at any size. One thread. */
public final class Picture {
    private static final String SVG_NAMESPACE = "http://www.w3.org/2000/svg";

    private final JFreeChart chart;

    Picture(JFreeChart chart) {
        this.chart = Objects.requireNonNull(chart, "chart");
    }

    /** What stands above it; empty if nothing does. */
    String title() {
        return chart.getTitle() == null ? "" : chart.getTitle().getText();
    }

    /**
     * Draws it as PNG.
     *
     * @param widthPixels width, pixels, &gt; 0
     * @param heightPixels height, pixels, &gt; 0
     * @return the file's bytes
     */
    public byte[] png(int widthPixels, int heightPixels) {
        BufferedImage image =
                new BufferedImage(widthPixels, heightPixels, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        try {
            g.setColor(Color.WHITE);
            g.fillRect(0, 0, widthPixels, heightPixels);
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(
                    RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            chart.draw(g, new Rectangle2D.Double(0, 0, widthPixels, heightPixels));
        } finally {
            g.dispose();
        }
        return EmbeddedPng.encode(image);
    }

    /**
     * Draws it as SVG; what is an image in it, such as a heat map, is embedded as PNG.
     *
     * @param widthPixels width, pixels, &gt; 0
     * @param heightPixels height, pixels, &gt; 0
     * @return one {@code svg} element without an XML declaration, ready for a page or a file
     */
    public String svg(int widthPixels, int heightPixels) {
        return svg(widthPixels, heightPixels, "", "");
    }

    /**
     * Draws it as SVG for a page that holds other drawings too.
     *
     * @param widthPixels width, pixels, &gt; 0
     * @param heightPixels height, pixels, &gt; 0
     * @param idPrefix begins every id in it, so that no two drawings of a page share one
     * @param saysWhat said of it to who cannot see it; nothing if empty
     * @return one {@code svg} element
     */
    String svg(int widthPixels, int heightPixels, String idPrefix, String saysWhat) {
        Document document =
                GenericDOMImplementation.getDOMImplementation()
                        .createDocument(SVG_NAMESPACE, "svg", null);
        SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
        context.setImageHandler(new EmbeddedPng());
        context.setIDGenerator(
                new SVGIDGenerator() {
                    @Override
                    public String generateID(String prefix) {
                        return super.generateID(idPrefix + prefix);
                    }
                });
        SVGGraphics2D g = new SVGGraphics2D(context, false);
        g.setSVGCanvasSize(new java.awt.Dimension(widthPixels, heightPixels));
        chart.draw(g, new Rectangle2D.Double(0, 0, widthPixels, heightPixels));
        StringWriter text = new StringWriter();
        try {
            Element root = g.getRoot();
            root.setAttributeNS(null, "viewBox", "0 0 " + widthPixels + " " + heightPixels);
            if (!saysWhat.isEmpty()) {
                root.setAttributeNS(null, "role", "img");
                root.setAttributeNS(null, "aria-label", saysWhat);
            }
            g.stream(root, text, false, false);
        } catch (SVGGraphics2DIOException e) {
            throw new IllegalStateException("writing SVG to memory failed", e);
        } finally {
            g.dispose();
        }
        String whole = text.toString();
        return whole.substring(whole.indexOf("<svg"));
    }
}
