package tickover.align;

import java.util.List;

/**
 * What an assembler made.
 *
 * @param pieces stretches without a gap, in order
 * @param gaps what is missing between and within them, in order
 * @param tooShortS lengths of stretches that were left out for being too short, s
 */
public record AssembledCapture(
        List<CapturePiece> pieces, List<StreamGap> gaps, List<Double> tooShortS) {
    public AssembledCapture {
        pieces = List.copyOf(pieces);
        gaps = List.copyOf(gaps);
        tooShortS = List.copyOf(tooShortS);
    }
}
