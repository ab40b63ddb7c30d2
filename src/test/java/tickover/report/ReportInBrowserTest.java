package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The HTML report in a real browser; skipped where none is installed. */
class ReportInBrowserTest {
    @TempDir private Path folder;

    @Test
    void isPrintedWithoutAskingTheNetwork() throws IOException {
        Optional<Browser> found = Browser.find();
        Assumptions.assumeTrue(found.isPresent(), "no browser; Debian: apt-get install chromium");
        Path page = folder.resolve("report.html");
        Files.writeString(
                page,
                SampleReport.report(
                                SampleReport.visit(
                                        folder.resolve("v"),
                                        "ML-07 <שלום>",
                                        "whine <img src='http://complaint.invalid/x'>",
                                        "2026-10-14T09:30:00"),
                                SampleReport.result("<img src='http://result.invalid/x'>", 0.5))
                        .html());
        Path pdf = folder.resolve("report.pdf");
        Path asking = folder.resolve("asking.html");
        Files.writeString(asking, "<img src='http://outside.invalid/control.png'>");
        try (Browser browser = found.get()) {
            browser.print(page, pdf);
            assertEquals(List.of(), browser.asked(), "requests of the report");
            browser.print(asking, folder.resolve("asking.pdf"));
            assertTrue(
                    browser.asked().toString().contains("outside.invalid/control.png"),
                    "a page that asks is seen to: " + browser.asked());
        }
        try (PDDocument printed = Loader.loadPDF(pdf.toFile())) {
            String text = new PDFTextStripper().getText(printed);
            assertTrue(text.contains("What was not tested"), text);
            assertTrue(text.contains("Page 1 of " + printed.getNumberOfPages()), text);
        }
    }
}
