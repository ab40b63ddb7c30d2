package tickover.diagnose;

import java.util.List;

/** Takes away what a known-good part on the same bench shows as well. */
final class BenchSisters {
    /** Evidence from which a known-good part shows a rhythm too. */
    private static final double SHOWN_NATS = 4;

    /** A rhythm this many times deeper than the good part's is the part's own: 6 dB. */
    private static final double DEEPER_RATIO = 2;

    /** What is left of evidence that a good part gives too: no accusation. */
    private static final double SHARED_NATS = 1;

    private BenchSisters() {}

    static BearingSigns without(BearingSigns own, BearingSigns good, List<String> notes) {
        return new BearingSigns(
                without(own.outerRing(), good.outerRing(), "outer ring", notes),
                without(own.innerRing(), good.innerRing(), "inner ring", notes),
                without(own.ballSpin(), good.ballSpin(), "balls", notes),
                without(own.cage(), good.cage(), "cage", notes));
    }

    private static CombFinding without(
            CombFinding own, CombFinding good, String name, List<String> notes) {
        boolean shared =
                own.evidenceNats() > SHARED_NATS
                        && good.evidenceNats() >= SHOWN_NATS
                        && own.modulationRatio() < DEEPER_RATIO * good.modulationRatio();
        if (!shared) {
            return own;
        }
        notes.add(
                "The rhythm of the "
                        + name
                        + " is about as deep with a known-good part on this bench, so it was not"
                        + " counted.");
        return own.withAtMost(SHARED_NATS);
    }
}
