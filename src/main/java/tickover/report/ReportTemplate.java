package tickover.report;

import com.samskivert.mustache.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/**
 * The program's own page templates; every value that is put in is escaped, and its longest words
 * can be broken.
 */
final class ReportTemplate {
    private ReportTemplate() {}

    /**
     * Fills a template.
     *
     * @param name its file, without {@code .html}
     * @param values what it names
     * @return the page, well-formed XML
     */
    static String fill(String name, Map<String, Object> values) {
        return Mustache.compiler()
                .withEscaper(t -> Svg.escape(LongWords.broken(t, LongWords.MOST_LETTERS)))
                .emptyStringIsFalse(true)
                .withLoader(part -> open(part.equals("style") ? "style.css" : part + ".html"))
                .compile(open(name + ".html"))
                .execute(values);
    }

    private static Reader open(String file) {
        return new InputStreamReader(stream(file), StandardCharsets.UTF_8);
    }

    /** Opens a file of the program's own. */
    static InputStream stream(String file) {
        InputStream in = ReportTemplate.class.getResourceAsStream(file);
        if (in == null) {
            throw new UncheckedIOException(
                    file + " of the program cannot be read", new IOException("not found"));
        }
        return in;
    }
}
