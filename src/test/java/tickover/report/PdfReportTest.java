package tickover.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureNode;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.text.PDFTextStripper;
import org.jfree.data.Range;
import org.jfree.data.xy.XYSeries;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import tickover.store.Visit;

/** The report's PDF, read back with another reader of PDF than the one that wrote it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PdfReportTest {
    private static final String UNIT = "ML-07 <b>&\"' שלום مرحبا 🚐";
    private static final String TEXT = "λ = 3 σ² ≥ 2 ⁻¹";

    @TempDir private static Path folder;
    private byte[] bytes;
    private String html;
    private PDDocument pdf;
    private String text;

    private Visit visit;

    private VisitReport report() {
        LinePlot.Mark mark = new LinePlot.Mark(1.2, "inner ring 1.20");
        XYSeries curve = new XYSeries("c", false);
        curve.add(0, -20);
        curve.add(2, -10);
        return SampleReport.report(visit, SampleReport.result(TEXT, 0.5))
                .plot(
                        LinePlot.draw(
                                new LinePlot.Labels("Spectrum", "Order", "dB"),
                                List.of(curve),
                                List.of(mark)),
                        "A spectrum.")
                .heatMap(
                        HeatMap.draw(
                                new HeatMap.Frame(
                                        "Waterfall",
                                        "Order",
                                        "Time, s",
                                        "dB",
                                        new Range(0, 2),
                                        new Range(0, 1)),
                                new double[][] {{0, -10}, {-20, -30}},
                                List.of(mark)),
                        "A waterfall.");
    }

    @BeforeAll
    void printsOnce() throws IOException {
        visit =
                SampleReport.visit(
                        folder.resolve("v"), UNIT, "whine & <grind>", "2026-10-14T09:30:00");
        VisitReport report = report();
        html = report.html();
        bytes = report.pdf();
        pdf = Loader.loadPDF(bytes);
        text = new PDFTextStripper().getText(pdf);
    }

    @AfterAll
    void closes() throws IOException {
        pdf.close();
    }

    @Test
    void titleLanguageAndTagsAreThere() {
        assertEquals(
                "ML-07 <b>&\"' שלום مرحبا □, visit of 14 October 2026, 09:30",
                pdf.getDocumentInformation().getTitle());
        assertEquals("en", pdf.getDocumentCatalog().getLanguage());
        assertTrue(pdf.getDocumentCatalog().getMarkInfo().isMarked());
        assertNotNull(pdf.getDocumentCatalog().getStructureTreeRoot());
        assertTrue(pdf.getDocumentCatalog().getViewerPreferences().displayDocTitle());
    }

    @Test
    void claimsTheAccessibilityThatItIsTaggedFor() throws IOException {
        String metadata =
                new String(
                        pdf.getDocumentCatalog().getMetadata().toByteArray(),
                        StandardCharsets.UTF_8);
        assertTrue(metadata.contains("pdfuaid"), metadata);
    }

    @Test
    void drawingIsTaggedAsAFigureThatSaysWhatItShows() {
        List<String> said = new ArrayList<>();
        figures(pdf.getDocumentCatalog().getStructureTreeRoot(), said);
        assertEquals(3, said.size(), said.toString());
        assertEquals(
                List.of("Spectrum. A spectrum.", "Waterfall. A waterfall."), said.subList(1, 3));
        assertTrue(said.get(0).startsWith("Front of the engine of ML-07"), said.get(0));
        assertTrue(said.get(0).contains("idler: most probable 80 %"), said.get(0));
    }

    private static void figures(PDStructureNode node, List<String> said) {
        for (Object kid : node.getKids()) {
            if (kid instanceof PDStructureElement e) {
                if (e.getStructureType().equals("Figure")) {
                    said.add(e.getAlternateDescription());
                }
                figures(e, said);
            }
        }
    }

    @Test
    void isReadInTheOrderOfThePage() {
        List<String> tags = new ArrayList<>();
        tags(pdf.getDocumentCatalog().getStructureTreeRoot(), tags);
        assertTrue(tags.indexOf("Figure") < tags.indexOf("H2"), tags.toString());
        int last = -1;
        for (String heading :
                List.of(
                        "What was done",
                        "Why",
                        "What was not tested",
                        "What comes next",
                        "If the belt comes off",
                        "For the workshop")) {
            int at = text.indexOf("\n" + heading);
            assertTrue(at > last, heading + " at " + at + " after " + last);
            last = at;
        }
    }

    private static void tags(PDStructureNode node, List<String> tags) {
        for (Object kid : node.getKids()) {
            if (kid instanceof PDStructureElement e) {
                tags.add(e.getStructureType());
                tags(e, tags);
            }
        }
    }

    @Test
    void everyFontIsEmbedded() throws IOException {
        int fonts = 0;
        for (PDPage page : pdf.getPages()) {
            for (COSName name : page.getResources().getFontNames()) {
                PDFont font = page.getResources().getFont(name);
                assertTrue(font.isEmbedded(), font.getName());
                assertTrue(font.getName().contains("DejaVuSans"), font.getName());
                fonts++;
            }
        }
        assertTrue(fonts >= 2, "plain and bold");
    }

    @Test
    void pagesAreNumberedAndMarked() {
        int pages = pdf.getNumberOfPages();
        for (int i = 1; i <= pages; i++) {
            assertTrue(text.contains("Page " + i + " of " + pages), "page " + i);
        }
        List<String> names = new ArrayList<>();
        for (PDOutlineItem item : pdf.getDocumentCatalog().getDocumentOutline().children()) {
            names.add(item.getTitle());
        }
        assertEquals(
                List.of("What was found", "For the workshop", "For whoever checks the work"),
                names);
    }

    @Test
    void textsKeepGreekSuperscriptsAndRightToLeftWords() {
        assertTrue(text.contains(TEXT + "-quality"), "Greek letters and superscripts");
        assertTrue(text.contains("שלום"), "Hebrew, in reading order");
        assertTrue(text.contains("whine & <grind>"), "complaint");
    }

    @Test
    void arabicLettersAreJoined() {
        // Joined letters are written with their presentation forms, which a reader turns back.
        assertTrue(
                java.text.Normalizer.normalize(text, java.text.Normalizer.Form.NFKC)
                        .contains("مرحبا"),
                text.substring(0, 200));
    }

    @Test
    void characterWithoutASignIsSaidToBeMissing() {
        assertTrue(text.contains("□"), "stand-in");
        assertTrue(flat(text).contains("no sign for one character"), "said");
        assertTrue(text.contains("U+1F690"), "named");
    }

    /** Every paragraph, list item, heading and cell of the page is in the PDF. */
    @Test
    void saysWhatTheHtmlSays() throws Exception {
        Document page =
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new InputSource(new StringReader(html)));
        String printed = letters(text);
        int compared = 0;
        for (String tag : List.of("h1", "h2", "h3", "p", "td", "th", "li")) {
            NodeList all = page.getElementsByTagName(tag);
            for (int i = 0; i < all.getLength(); i++) {
                String words = all.item(i).getTextContent();
                // Right-to-left words are compared above; their order on the line differs.
                if (words.codePoints().allMatch(c -> c < 0x590 || c > 0x6ff)) {
                    assertTrue(
                            printed.contains(letters(words)),
                            tag + ": " + words + " not in " + text);
                    compared++;
                }
            }
        }
        assertTrue(compared > 50, "there is something to compare: " + compared);
    }

    @Test
    void sameReportGivesTheSameBytes() {
        assertArrayEquals(bytes, report().pdf());
    }

    @Test
    void customersPageIsOnePage() throws IOException {
        try (PDDocument page = Loader.loadPDF(report().customerOnly().pdf())) {
            assertEquals(1, page.getNumberOfPages());
            String words = flat(new PDFTextStripper().getText(page));
            assertTrue(words.contains("The noise most probably comes from the idler"), words);
            assertFalse(words.contains("For whoever checks"), words);
        }
    }

    private static String flat(String words) {
        return words.replaceAll("\\s+", " ");
    }

    /** Without the spaces and the hyphens that lines are broken at. */
    private static String letters(String words) {
        return words.replaceAll("[\\s\\u00a0\\u00ad]+", "");
    }
}
