package tickover.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import tickover.diagnose.BenchResult;
import tickover.drive.BearingOrders;
import tickover.report.BenchPicture;
import tickover.report.Picture;

/** Writes the envelope order spectrum of a bench record as a picture. */
final class BenchPlot {
    private static final int WIDTH_PIXELS = 1000;
    private static final int HEIGHT_PIXELS = 560;

    private BenchPlot() {}

    /** Refuses a name from which no format follows, before anything long is done. */
    static void requireKnown(Path file) {
        if (file != null && !isSvg(file) && !isPng(file)) {
            throw CliException.badInput("--plot " + file + ": need a name in .svg or .png");
        }
    }

    private static boolean isSvg(Path file) {
        return file.toString().toLowerCase(Locale.ROOT).endsWith(".svg");
    }

    private static boolean isPng(Path file) {
        return file.toString().toLowerCase(Locale.ROOT).endsWith(".png");
    }

    static void write(
            Path file, BenchResult result, BearingOption bearing, String name, Terminal terminal) {
        Picture picture =
                BenchPicture.of(
                        result, BearingOrders.of(bearing.geometry(), bearing.turning()), name);
        byte[] bytes =
                isSvg(file)
                        ? picture.svg(WIDTH_PIXELS, HEIGHT_PIXELS).getBytes(StandardCharsets.UTF_8)
                        : picture.png(WIDTH_PIXELS, HEIGHT_PIXELS);
        OutputFile.write(file, bytes, terminal);
    }
}
