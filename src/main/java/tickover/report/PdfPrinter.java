package tickover.report;

import com.openhtmltopdf.bidi.support.ICUBreakers;
import com.openhtmltopdf.extend.FSSupplier;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * Prints a page of the report as PDF. With {@link RightToLeft} the only class that knows the
 * library, so that nothing else loads it.
 */
final class PdfPrinter {
    static final String PLAIN = "font/DejaVuSans.ttf";
    static final String BOLD = "font/DejaVuSans-Bold.ttf";

    /** Widths of drawings on the page, CSS pixels of 1/96 inch. */
    private static final long DRAWING_PIXELS = 330;

    private static final long BARS_PIXELS = 320;
    private static final long PLOT_PIXELS = 675;

    /** Layout of a TrueType file's directory, bytes. */
    private static final int TABLE_COUNT_AT = 4;

    private static final int DIRECTORY_AT = 12;
    private static final int DIRECTORY_STEP = 16;

    /** "GSUB", the table of glyph substitution, and a name that no reader looks for. */
    private static final int LIGATURES = 0x47535542;

    private static final int NO_TABLE = 0x67736278;

    private static final int PLAIN_WEIGHT = 400;
    private static final int BOLD_WEIGHT = 700;

    /** Names by which the page's drawings ask for the one embedded family. */
    private static final List<String> DRAWN_FAMILIES = List.of("sans-serif", "SansSerif");

    private PdfPrinter() {}

    /**
     * Prints a page.
     *
     * @param page well-formed XHTML without outside references
     * @return the bytes of the file, the same for the same page
     */
    static byte[] print(String page) {
        XRLog.setLoggingEnabled(false);
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.usePdfUaAccessibility(true);
        builder.withProducer("tickover");
        builder.withW3cDocument(parse(page), null);
        builder.useSVGDrawer(
                new BatikSVGDrawer(BatikSVGDrawer.SvgScriptMode.SECURE, Set.of("data")));
        builder.useUnicodeBidiSplitter(RightToLeft.Splitter::new);
        builder.useUnicodeBidiReorderer(new RightToLeft.Reorderer());
        builder.useUnicodeLineBreaker(new ICUBreakers.ICULineBreaker(Locale.UK));
        use(builder, "DejaVu Sans", BaseRendererBuilder.FSFontUseCase.DOCUMENT);
        for (String family : DRAWN_FAMILIES) {
            use(builder, family, BaseRendererBuilder.FSFontUseCase.SVG);
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.layout();
            renderer.createPDFWithoutClosing();
            try (PDDocument document = renderer.getPdfDocument()) {
                // Time of writing and an id made from it would tell equal reports apart.
                document.getDocumentInformation().setCreationDate(null);
                document.setDocumentId((long) page.hashCode());
                document.save(out);
            }
        } catch (IOException e) {
            throw new UncheckedIOException("writing a PDF to memory failed", e);
        }
        return out.toByteArray();
    }

    private static void use(
            PdfRendererBuilder builder, String family, BaseRendererBuilder.FSFontUseCase where) {
        builder.useFont(
                font(PLAIN), family, PLAIN_WEIGHT, FontStyle.NORMAL, true, EnumSet.of(where));
        builder.useFont(font(BOLD), family, BOLD_WEIGHT, FontStyle.NORMAL, true, EnumSet.of(where));
    }

    private static FSSupplier<InputStream> font(String file) {
        return () -> new ByteArrayInputStream(withoutLigatures(file));
    }

    /**
     * Reads a font and renames its table of ligatures, so that none is used: text with "fi" in one
     * sign could not be searched for or copied.
     */
    private static byte[] withoutLigatures(String file) {
        byte[] font;
        try (InputStream in = ReportTemplate.stream(file)) {
            font = in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(file + " of the program cannot be read", e);
        }
        ByteBuffer directory = ByteBuffer.wrap(font);
        int tables = directory.getShort(TABLE_COUNT_AT);
        for (int i = 0; i < tables; i++) {
            int at = DIRECTORY_AT + i * DIRECTORY_STEP;
            if (directory.getInt(at) == LIGATURES) {
                directory.putInt(at, NO_TABLE);
            }
        }
        return font;
    }

    private static Document parse(String page) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setNamespaceAware(true);
            factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            Document document =
                    factory.newDocumentBuilder().parse(new InputSource(new StringReader(page)));
            prepareDrawings(document);
            return document;
        } catch (ParserConfigurationException | SAXException e) {
            throw new IllegalStateException("the report's page is not well-formed", e);
        } catch (IOException e) {
            throw new UncheckedIOException("reading a page from memory failed", e);
        }
    }

    /**
     * Gives drawings what the library does not work out: their size, from the width that the page
     * has for them, what they say, which it looks for where HTML has it of an image, and Arabic
     * letters that are joined.
     */
    private static void prepareDrawings(Document document) {
        NodeList texts = document.getElementsByTagNameNS("http://www.w3.org/2000/svg", "text");
        for (int i = 0; i < texts.getLength(); i++) {
            Node text = texts.item(i);
            text.setTextContent(RightToLeft.joined(text.getTextContent()));
        }
        NodeList drawings = document.getElementsByTagNameNS("http://www.w3.org/2000/svg", "svg");
        for (int i = 0; i < drawings.getLength(); i++) {
            Element svg = (Element) drawings.item(i);
            svg.setAttribute("alt", svg.getAttribute("aria-label"));
            String[] box = svg.getAttribute("viewBox").split(" ", -1);
            double ratio = Double.parseDouble(box[3]) / Double.parseDouble(box[2]);
            long width = widthPixels(((Element) svg.getParentNode()).getAttribute("class"));
            svg.setAttribute(
                    "style", "width: " + width + "px; height: " + Math.round(width * ratio) + "px");
        }
    }

    private static long widthPixels(String place) {
        return switch (place) {
            case "drawing" -> DRAWING_PIXELS;
            case "bars" -> BARS_PIXELS;
            default -> PLOT_PIXELS;
        };
    }
}
