package tickover.align;

import java.util.Objects;
import java.util.OptionalLong;
import tickover.unit.HostNanos;

/**
 * Something is missing in the stream, and why.
 *
 * @param source number of the device
 * @param segment the segment it happened in; where a border was crossed, the one that ended
 * @param cause why
 * @param at when the host noticed
 * @param firstMissing number within the segment of the first missing sample; where a border was
 *     crossed, how many samples the segment had
 * @param missingOrUnknown samples that are missing; negative if that cannot be known
 */
public record StreamGap(
        int source,
        int segment,
        Cause cause,
        HostNanos at,
        long firstMissing,
        long missingOrUnknown)
        implements AlignedBlock {
    /** Why something is missing. */
    public enum Cause {
        /** Frames were lost or damaged on the line. */
        LOST_ON_LINE(false),
        /** The probe could not keep up and dropped samples. */
        DROPPED_BY_PROBE(false),
        /** The probe restarted. */
        RESET(true),
        /** The device was unplugged or its port failed. */
        UNPLUGGED(true),
        /** Sampling was stopped and started again, or the rate was changed. */
        RESTARTED(true),
        /** The host's clock, or the device's, jumped. */
        CLOCK_STEP(true),
        /** Bytes of the recording are damaged or missing. */
        RECORDING_DAMAGED(true);

        private final boolean endsSegment;

        Cause(boolean endsSegment) {
            this.endsSegment = endsSegment;
        }

        /**
         * Returns whether a new segment begins after it.
         *
         * @return true if nothing may be joined across it
         */
        public boolean endsSegment() {
            return endsSegment;
        }
    }

    public StreamGap {
        Objects.requireNonNull(cause, "cause");
        Objects.requireNonNull(at, "at");
    }

    /**
     * Returns how many samples are missing.
     *
     * @return samples, empty if that cannot be known
     */
    public OptionalLong missing() {
        return missingOrUnknown < 0 ? OptionalLong.empty() : OptionalLong.of(missingOrUnknown);
    }

    @Override
    public Kind kind() {
        return Kind.GAP;
    }
}
