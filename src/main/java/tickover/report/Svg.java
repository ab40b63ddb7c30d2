package tickover.report;

import java.util.Locale;

/** Writes SVG elements; every attribute and text is escaped. One thread. */
final class Svg {
    private final StringBuilder text = new StringBuilder();

    /**
     * Opens an element that will hold others.
     *
     * @param name its name
     * @param attributes names and values in turn
     */
    Svg open(String name, Object... attributes) {
        start(name, attributes);
        text.append(">\n");
        return this;
    }

    /** Opens the drawing itself, with its title for those who cannot see it. */
    Svg root(double width, double height, String title, String said, double fontPixels) {
        open(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "viewBox",
                "0 0 " + number(width) + " " + number(height),
                "width",
                width,
                "height",
                height,
                "role",
                "img",
                "aria-label",
                said,
                "font-family",
                "sans-serif",
                "font-size",
                fontPixels);
        return words("title", title);
    }

    /** Closes an element. */
    Svg close(String name) {
        text.append("</").append(name).append(">\n");
        return this;
    }

    /** Writes an element that holds nothing. */
    Svg empty(String name, Object... attributes) {
        start(name, attributes);
        text.append("/>\n");
        return this;
    }

    /** Writes an element that holds text. */
    Svg words(String name, String content, Object... attributes) {
        start(name, attributes);
        text.append('>').append(escape(content)).append("</").append(name).append(">\n");
        return this;
    }

    private void start(String name, Object... attributes) {
        text.append('<').append(name);
        for (int i = 0; i < attributes.length; i += 2) {
            text.append(' ')
                    .append(attributes[i])
                    .append("=\"")
                    .append(escape(value(attributes[i + 1])))
                    .append('"');
        }
    }

    private static String value(Object attribute) {
        return attribute instanceof Double number ? number(number) : String.valueOf(attribute);
    }

    /** A coordinate with two decimals. */
    static String number(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }

    /** Makes text harmless inside XML; what XML has no place for becomes U+FFFD. */
    static String escape(String raw) {
        StringBuilder safe = new StringBuilder();
        raw.codePoints()
                .forEach(
                        c -> {
                            switch (c) {
                                case '&' -> safe.append("&amp;");
                                case '<' -> safe.append("&lt;");
                                case '>' -> safe.append("&gt;");
                                case '"' -> safe.append("&quot;");
                                case '\'' -> safe.append("&#39;");
                                default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
                            }
                        });
        return safe.toString();
    }

    /** XML 1.0 has no place for most control characters, not even escaped. */
    private static boolean allowed(int codePoint) {
        return codePoint == '\t'
                || codePoint == '\n'
                || codePoint == '\r'
                || (codePoint >= 0x20 && codePoint <= 0xD7FF)
                || (codePoint >= 0xE000 && codePoint <= 0xFFFD)
                || codePoint >= 0x10000;
    }

    @Override
    public String toString() {
        return text.toString();
    }
}
