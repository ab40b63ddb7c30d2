package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import tickover.diagnose.Candidate;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.drive.DriveModel;
import tickover.store.Visit;

class VisitReportTest {
    private static final String HOSTILE = "<script>alert('&\"')</script>";
    private static final String ESCAPED =
            "&lt;script&gt;alert(&#39;&amp;&quot;&#39;)&lt;/script&gt;";

    private static final String UNIT = "ML-07 <b>&\"'</b> שלום مرحبا 🚐";

    @TempDir private Path folder;
    private Visit visit;

    @BeforeEach
    void writesAVisitWhoseEveryTextTriesToBeMarkup() throws IOException {
        visit = SampleReport.visit(folder.resolve("v"), UNIT, HOSTILE, "2026-10-14T09:30:00");
        assertEquals(HOSTILE, visit.complaint());
    }

    private VisitReport report() {
        return SampleReport.report(visit, SampleReport.result(HOSTILE, 0.5));
    }

    private static Document parse(String xml) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setNamespaceAware(true);
        return factory.newDocumentBuilder().parse(new InputSource(new StringReader(xml)));
    }

    @Test
    void escapesEveryTextOfTheVisit() {
        String mayBreak = "\u200B";
        String html = report().html().replace(mayBreak, "");
        assertFalse(html.contains("<script"), "markup of the visit's own");
        assertFalse(html.contains("<b>&\"'"), "markup of the vehicle's own");
        for (String text : List.of("axis", "pattern", "place", "test", "quality", "settings")) {
            assertTrue(html.contains(ESCAPED + "-" + text), text);
        }
        assertTrue(html.contains("</b> " + ESCAPED), "complaint");
        assertTrue(
                html.contains("ML-07 &lt;b&gt;&amp;&quot;&#39;&lt;/b&gt; שלום مرحبا 🚐"), "unit");
    }

    @Test
    void longNamesLeaveTheDrawingItsRoom() {
        assertEquals(List.of("water pump"), DrawingLabels.folded("water pump"));
        assertEquals(
                List.of("upper alternator", "with a very long", "name that somebody…"),
                DrawingLabels.folded("upper alternator with a very long name that somebody typed"));
        assertEquals(
                List.of("W".repeat(18), "W".repeat(18), "W".repeat(18) + "…"),
                DrawingLabels.folded("W".repeat(60)));
    }

    @Test
    void isWellFormedAndNamesItsLanguage() throws Exception {
        Document document = parse(report().html());
        assertEquals("en", document.getDocumentElement().getAttribute("lang"));
        assertEquals(
                UNIT + ", visit of 14 October 2026, 09:30",
                document.getElementsByTagName("title").item(0).getTextContent());
    }

    @Test
    void bytesThatXmlHasNoPlaceForDoNotBreakThePage() throws Exception {
        VisitResult result = SampleReport.result("bell \u0007 and half a pair \ud83d", 0.5);
        String html = SampleReport.report(visit, result).html();
        parse(html);
        assertTrue(html.contains("bell \ufffd and half a pair \ufffd-pattern"), "stand-in");
    }

    @Test
    void refersToNothingOutsideItself() throws Exception {
        VisitReport report = report();
        report.heatMap(map(), "a map");
        Document document = parse(report.html());
        Set<String> loading = Set.of("script", "link", "iframe", "object", "embed", "base");
        NodeList all = document.getElementsByTagName("*");
        int images = 0;
        for (int i = 0; i < all.getLength(); i++) {
            Element e = (Element) all.item(i);
            assertFalse(loading.contains(e.getTagName()), e.getTagName());
            NamedNodeMap attributes = e.getAttributes();
            for (int j = 0; j < attributes.getLength(); j++) {
                String name = attributes.item(j).getNodeName();
                String value = attributes.item(j).getNodeValue();
                boolean refers = name.equals("src") || name.endsWith("href");
                assertTrue(!refers || value.matches("(?s)(data:|#).*"), name + "=" + value);
                assertFalse(!name.startsWith("xmlns") && value.contains("://"), name + "=" + value);
                assertFalse(value.matches("(?s).*url\\((?!#).*"), name + "=" + value);
                images += value.startsWith("data:image/png") ? 1 : 0;
            }
        }
        assertEquals(1, images, "the map is inside");
        String style = document.getElementsByTagName("style").item(0).getTextContent();
        assertFalse(style.matches("(?s).*(url\\(|@import|://).*"), "style sheet");
    }

    @Test
    void noTwoDrawingsShareAnId() throws Exception {
        VisitReport report = report();
        report.heatMap(map(), "a map");
        report.heatMap(map(), "another");
        NodeList all = parse(report.html()).getElementsByTagName("*");
        Set<String> ids = new java.util.HashSet<>();
        for (int i = 0; i < all.getLength(); i++) {
            String id = ((Element) all.item(i)).getAttribute("id");
            assertTrue(id.isEmpty() || id.equals("genericDefs") || ids.add(id), id);
        }
    }

    @Test
    void saysTheAnswerFirstAndTheCautionAtTheStepThatNeedsIt() {
        String html = report().html();
        int headline = html.indexOf("class=\"headline\">The noise most probably comes from the");
        int notTested = html.indexOf("What was not tested");
        int test = html.indexOf("belt off</b>");
        int caution = html.indexOf("Caution before a run without the belt");
        assertTrue(headline > 0 && headline < notTested, "answer, then its limits");
        assertTrue(notTested < test && test < caution, "caution after the test that needs it");
        assertTrue(html.contains("most probable 80 %"), "mark in the drawing, in words");
    }

    @Test
    void saysWhatWasNotTestedAndHowTheBeltLies() {
        String html = report().html();
        assertTrue(html.contains("not put on the alternator, the valve cover or the injectors."));
        assertTrue(
                html.contains(
                        "no recording with the headlamps on, in gear, with the belt off or while"
                                + " the engine speed rises slowly."));
        assertTrue(html.contains("crank → idler → alternator → crank."));
        assertTrue(html.contains("Turning with the crank: crank, alternator. Against it: idler."));
        assertTrue(html.contains("mark its direction") && html.contains("Washers and spacers"));
    }

    @Test
    void repairIsSaidFirstAndItsLevelsAreSetSideBySide() throws IOException {
        Visit before =
                SampleReport.visit(folder.resolve("b"), "ML-07", "whine", "2026-10-01T09:00:00");
        String html = report().against(before, SampleReport.result(HOSTILE, 5), "idler").html();
        int repair = html.indexOf("Repair of the idler");
        assertTrue(repair > 0 && repair < html.indexOf("taken by themselves"), "repair first");
        assertTrue(html.contains("1 October 2026") && html.contains("5.000 m/s²"), "bars");
        assertTrue(html.contains("20.0 dB (10 times) quieter"), "in times");
    }

    @Test
    void visitThatSaysNothingIsStillReported() {
        Candidate none = new Candidate(Candidate.NONE, Fault.NONE, 1, List.of());
        VisitResult empty =
                new VisitResult(
                        new Findings(Verdict.UNCLEAR, List.of(none), List.of(), List.of()),
                        List.of(),
                        List.of(),
                        "0",
                        "");
        VisitReport report = SampleReport.report(visit, empty);
        report.plotsMissing("There are no plots: nothing was left.");
        String html = report.html();
        assertTrue(html.contains("No recording of this visit could be used."));
        assertTrue(html.contains("Recording c01 could not be used."));
        assertTrue(html.contains("There are no plots: nothing was left."));
    }

    @Test
    void customersPageAloneHoldsNothingTechnical() {
        String html = report().customerOnly().html();
        assertTrue(html.contains("What was not tested"));
        assertFalse(html.contains("For whoever checks the work"));
        assertFalse(html.contains("-settings"));
    }

    @Test
    void drawingIsWellFormedAndMarksTheSuspectByShape() throws Exception {
        DriveModel model = DriveModel.of(visit.vehicle());
        String svg = EngineDrawing.svg(model, SampleReport.result("x", 1).findings());
        assertEquals("svg", parse(svg).getDocumentElement().getTagName());
        assertTrue(svg.contains("url(#hatch)"));
        assertFalse(EngineDrawing.svg(model).contains("url(#hatch)"), "no suspect, no mark");
    }

    @Test
    void plotIsDrawnAsSvgWithTextAndAsPng() throws Exception {
        Picture picture = map();
        String svg = picture.svg(400, 300);
        assertEquals("0 0 400 300", parse(svg).getDocumentElement().getAttribute("viewBox"));
        assertTrue(svg.contains("Order per crank turn"));
        assertTrue(svg.contains("inner ring 1.20"), "a part's line");
        assertTrue(svg.contains("data:image/png;base64,"));
        java.awt.image.BufferedImage image =
                javax.imageio.ImageIO.read(new java.io.ByteArrayInputStream(picture.png(400, 300)));
        assertEquals(400, image.getWidth());
        assertEquals(300, image.getHeight());
    }

    private static Picture map() {
        return HeatMap.draw(
                new HeatMap.Frame(
                        "t <&>",
                        "Order per crank turn",
                        "Time, s",
                        "dB",
                        new org.jfree.data.Range(0, 2),
                        new org.jfree.data.Range(0, 1)),
                new double[][] {{0, -10}, {-20, Double.NEGATIVE_INFINITY}},
                List.of(new LinePlot.Mark(1.2, "inner ring 1.20")));
    }
}
