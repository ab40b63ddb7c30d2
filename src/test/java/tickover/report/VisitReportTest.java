package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Evidence;
import tickover.diagnose.EvidenceKind;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.Mount;
import tickover.diagnose.NextTest;
import tickover.diagnose.PartLevel;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Regime;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.session.SimulatedFolders;
import tickover.sim.LibraryPool;
import tickover.store.Visit;
import tickover.store.VisitFolder;

class VisitReportTest {
    private static final String HOSTILE = "<script>alert('&\"')</script>";

    @TempDir private Path folder;

    /** A visit whose every free text tries to be markup. */
    private Visit visit() throws IOException {
        Path dir = folder.resolve("visit");
        SimulatedFolders.write(LibraryPool.afterRepair(), dir);
        Path toml = dir.resolve("visit.toml");
        Files.writeString(
                toml,
                Files.readString(toml)
                        .replaceFirst(
                                "complaint = \".*\"",
                                "complaint = '''" + HOSTILE.replace("$", "") + "'''"));
        return VisitFolder.read(dir);
    }

    private static VisitResult result() {
        CaptureLabel label =
                new CaptureLabel(
                        "c01", HOSTILE, HOSTILE, Mount.HAND, Regime.IDLE, Condition.UNLOADED);
        Candidate idler =
                new Candidate(
                        "idler",
                        Fault.BEARING_INNER_RING,
                        0.8,
                        List.of(new Evidence(EvidenceKind.PATTERN, HOSTILE, 12)));
        Candidate none = new Candidate(Candidate.NONE, Fault.NONE, 0.2, List.of());
        return new VisitResult(
                new Findings(
                        Verdict.COMPONENT,
                        List.of(idler, none),
                        List.of(new NextTest("belt-off", HOSTILE, 10, 0.4)),
                        List.of(QualityNote.ofWhole("c01", QualityProblem.CLIPPED, HOSTILE))),
                List.of(new CaptureSummary(label, "tach", 8, 780, 775, 785, 1.2)),
                List.of(new PartLevel("idler", "c01", 0.5, 0.01, List.of())),
                "0",
                HOSTILE);
    }

    @Test
    void escapesEveryTextOfTheVisit() throws IOException {
        Visit visit = visit();
        assertEquals(HOSTILE, visit.complaint());
        String html = VisitReport.of(visit, DriveModel.of(visit.vehicle()), result()).html();
        assertFalse(html.contains("<script"), "markup of the visit's own");
        int places = 7;
        assertEquals(places, html.split("&lt;script&gt;", -1).length - 1);
    }

    @Test
    void saysTheAnswerFirstAndTheCautionAtTheStepThatNeedsIt() throws IOException {
        Visit visit = visit();
        String html = VisitReport.of(visit, DriveModel.of(visit.vehicle()), result()).html();
        int headline = html.indexOf("The noise most probably comes from the idler");
        int test = html.indexOf("belt off</strong>");
        int caution = html.indexOf("Caution before a run without the belt");
        assertTrue(headline > 0 && headline < test && test < caution);
        assertTrue(html.contains("most probable 80 %"), "mark in the drawing, in words");
    }

    @Test
    void drawingIsWellFormedAndMarksTheSuspectByShape() throws Exception {
        Visit visit = visit();
        String svg = EngineDrawing.svg(DriveModel.of(visit.vehicle()), result().findings());
        Document document =
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new InputSource(new StringReader(svg)));
        assertEquals("svg", document.getDocumentElement().getTagName());
        assertTrue(svg.contains("url(#hatch)"));
        assertFalse(
                EngineDrawing.svg(DriveModel.of(visit.vehicle())).contains("url(#hatch)"),
                "no suspect, no mark");
    }

    @Test
    void plotIsDrawnAsSvgWithTextAndAsPng() throws Exception {
        Picture picture =
                HeatMap.draw(
                        new HeatMap.Frame(
                                "t <&>",
                                "Order per crank turn",
                                "Time, s",
                                "dB",
                                new org.jfree.data.Range(0, 2),
                                new org.jfree.data.Range(0, 1)),
                        new double[][] {{0, -10}, {-20, Double.NEGATIVE_INFINITY}});
        String svg = picture.svg(400, 300);
        Document document =
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new InputSource(new StringReader(svg)));
        assertEquals("0 0 400 300", document.getDocumentElement().getAttribute("viewBox"));
        assertTrue(svg.contains("Order per crank turn"));
        assertTrue(svg.contains("data:image/png;base64,"));
        java.awt.image.BufferedImage image =
                javax.imageio.ImageIO.read(new java.io.ByteArrayInputStream(picture.png(400, 300)));
        assertEquals(400, image.getWidth());
        assertEquals(300, image.getHeight());
    }
}
