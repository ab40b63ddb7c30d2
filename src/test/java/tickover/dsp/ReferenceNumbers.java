package tickover.dsp;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** Arrays of numbers from a test resource: one line each, a name and then the values. */
public final class ReferenceNumbers {
    private final Map<String, double[]> arrays = new TreeMap<>();

    /** Reads a resource by its absolute name. */
    public static ReferenceNumbers read(String resource) {
        try (InputStream in = ReferenceNumbers.class.getResourceAsStream(resource)) {
            return of(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Reads a text of such lines; those that begin with # are comments. */
    static ReferenceNumbers of(String text) {
        ReferenceNumbers numbers = new ReferenceNumbers();
        text.lines().filter(line -> !line.startsWith("#")).forEach(numbers::add);
        return numbers;
    }

    /** The names of all arrays. */
    Set<String> names() {
        return arrays.keySet();
    }

    private void add(String line) {
        String[] words = line.trim().split(" +", -1);
        double[] values = new double[words.length - 1];
        for (int i = 0; i < values.length; i++) {
            values[i] = Double.parseDouble(words[i + 1]);
        }
        arrays.put(words[0], values);
    }

    /** The array of that name. */
    public double[] get(String name) {
        double[] values = arrays.get(name);
        if (values == null) {
            throw new IllegalArgumentException("no array " + name);
        }
        return values.clone();
    }
}
