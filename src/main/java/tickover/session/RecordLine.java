package tickover.session;

import java.util.Objects;
import java.util.function.Supplier;
import tickover.link.ByteLink;

/**
 * A line to record from.
 *
 * @param info what is on it
 * @param open opens it, now and after every loss; throws a {@link tickover.link.LinkException} if
 *     it cannot
 */
public record RecordLine(SourceInfo info, Supplier<ByteLink> open) {
    public RecordLine {
        Objects.requireNonNull(info, "info");
        Objects.requireNonNull(open, "open");
    }
}
