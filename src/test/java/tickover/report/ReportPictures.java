package tickover.report;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Draws a report's HTML in a real browser, as wide as a desk's screen, as narrow as a telephone's,
 * and printed, and says what it asked the network for. {@code ReportPictures REPORT.html FOLDER}
 */
public final class ReportPictures {
    private static final int DESK_PIXELS = 1200;
    private static final int PHONE_PIXELS = 500;
    private static final int HEIGHT_PIXELS = 2600;

    private ReportPictures() {}

    /**
     * Draws them.
     *
     * @param args the report and the folder for the pictures
     * @throws IOException if the browser or the disk fails
     */
    public static void main(String[] args) throws IOException {
        Path page = Path.of(args[0]).toAbsolutePath();
        Path folder = Files.createDirectories(Path.of(args[1]).toAbsolutePath());
        PrintStream out = System.out;
        Optional<Browser> found = Browser.find();
        if (found.isEmpty()) {
            out.println("There is no browser; Debian: apt-get install chromium");
            return;
        }
        try (Browser browser = found.get()) {
            browser.screenshot(page, DESK_PIXELS, HEIGHT_PIXELS, folder.resolve("desk.png"));
            browser.screenshot(page, PHONE_PIXELS, HEIGHT_PIXELS, folder.resolve("phone.png"));
            browser.print(page, folder.resolve("print.pdf"));
            out.println("Requests to the network: " + browser.asked().size());
            browser.asked().forEach(out::println);
        }
    }
}
