package tickover.console.model;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import tickover.session.ReportMaker;

/** Writes a report as a page and as a PDF beside it. */
final class ReportFiles {
    private ReportFiles() {}

    /** Writes both; returns what to tell of them. */
    static String write(ReportMaker maker, Path html) throws IOException {
        Files.createDirectories(html.toAbsolutePath().getParent());
        Files.writeString(html, maker.html(), StandardCharsets.UTF_8);
        String name = html.getFileName().toString().replaceFirst("\\.html$", ".pdf");
        Path pdf = html.resolveSibling(name);
        Files.write(pdf, maker.pdf());
        return "The report is " + pdf + ", to print or hand over, and " + html + ", to look at.";
    }
}
