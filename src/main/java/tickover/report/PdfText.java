package tickover.report;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SortedSet;
import java.util.TreeSet;

/** A page with every character replaced that the embedded fonts do not have. */
final class PdfText {
    /** A white square stands for what cannot be shown. */
    private static final int STAND_IN = 0x25A1;

    private static final int MOST_NAMED = 12;

    private final String page;
    private final SortedSet<Integer> missing;

    private PdfText(String page, SortedSet<Integer> missing) {
        this.page = page;
        this.missing = missing;
    }

    static PdfText of(String page) {
        List<Font> fonts = fonts();
        SortedSet<Integer> missing = new TreeSet<>();
        StringBuilder out = new StringBuilder(page.length());
        page.codePoints()
                .forEach(
                        c -> {
                            boolean shown =
                                    c < 128
                                            || Character.getType(c) == Character.FORMAT
                                            || fonts.stream().allMatch(f -> f.canDisplay(c));
                            if (!shown) {
                                missing.add(c);
                            }
                            out.appendCodePoint(shown ? c : STAND_IN);
                        });
        return new PdfText(out.toString(), missing);
    }

    private static List<Font> fonts() {
        List<Font> fonts = new ArrayList<>();
        for (String file : List.of(PdfPrinter.PLAIN, PdfPrinter.BOLD)) {
            try (InputStream in = ReportTemplate.stream(file)) {
                fonts.add(Font.createFont(Font.TRUETYPE_FONT, in));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            } catch (FontFormatException e) {
                throw new IllegalStateException(file + " of the program is no font", e);
            }
        }
        return fonts;
    }

    String page() {
        return page;
    }

    /** Code points that were replaced. */
    SortedSet<Integer> missing() {
        return missing;
    }

    /** Says what was replaced. */
    String sentence() {
        List<String> named =
                missing.stream()
                        .limit(MOST_NAMED)
                        .map(c -> String.format(Locale.ROOT, "U+%04X", c))
                        .toList();
        return "This file's fonts have no sign for "
                + (missing.size() == 1 ? "one character" : missing.size() + " characters")
                + " of the visit's texts ("
                + String.join(", ", named)
                + (missing.size() > MOST_NAMED ? " and others" : "")
                + "); □ stands in their place. The HTML form of the report has them.";
    }
}
