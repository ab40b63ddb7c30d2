package tickover.session;

import java.nio.file.Path;
import java.util.Optional;
import tickover.link.LinkException;
import tickover.link.RecordingIndex;
import tickover.link.RecordingReader;

/** Looks for damage in recordings by their own checksums. */
public final class RecordingDamage {
    private RecordingDamage() {}

    /**
     * Looks.
     *
     * @param recording a {@code .tkr} file
     * @return what is wrong, as the end of a sentence; empty if every chunk is good
     */
    public static Optional<String> of(Path recording) {
        try {
            RecordingIndex index = RecordingReader.open(recording).index();
            if (!index.damaged().isEmpty()) {
                RecordingIndex.Damage first = index.damaged().get(0);
                return Optional.of(
                        index.damaged().size()
                                + (index.damaged().size() == 1
                                        ? " stretch fails"
                                        : " stretches fail")
                                + " its checksums, the first of "
                                + first.bytes()
                                + " bytes at byte "
                                + first.offset());
            }
            return index.tornBytes() == 0
                    ? Optional.empty()
                    : Optional.of("its last " + index.tornBytes() + " bytes are no whole chunk");
        } catch (LinkException e) {
            String said = e.getMessage();
            return Optional.of(said.endsWith(".") ? said.substring(0, said.length() - 1) : said);
        }
    }
}
