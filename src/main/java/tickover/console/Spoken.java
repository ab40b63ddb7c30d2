package tickover.console;

import java.util.function.Function;
import javafx.util.StringConverter;

/** Says what stands in a choice; nothing is typed into one. */
final class Spoken<T> extends StringConverter<T> {
    private final Function<T, String> words;

    Spoken(Function<T, String> words) {
        this.words = words;
    }

    @Override
    public String toString(T value) {
        return value == null ? "" : words.apply(value);
    }

    @Override
    public T fromString(String text) {
        throw new UnsupportedOperationException("choices are chosen, not typed");
    }
}
