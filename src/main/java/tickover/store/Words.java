package tickover.store;

import java.util.Locale;

/** The words of enums as files and tables hold them: lower case, hyphens for underscores. */
final class Words {
    private Words() {}

    static <E extends Enum<E>> E of(Class<E> type, String word) {
        return Enum.valueOf(type, word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }
}
