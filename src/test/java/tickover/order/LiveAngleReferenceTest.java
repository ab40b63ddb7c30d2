package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Live angle against a shaft whose angle is a closed form. */
class LiveAngleReferenceTest {
    private static final double RATE_HZ = 1_000_000;

    /**
     * A shaft of 10 + 5 t turns per second passes turns 0, 1 and 2 at these times, and turns 0.5
     * and 1.5 at those: roots of 10 t + 5 t²/2, rounded to a millionth of a second.
     */
    @Test
    void constantAngularAccelerationIsFollowedExactly() {
        double[] edgesS = {0, 0.097618, 0.190890};
        // Half a microsecond of each edge, weighed by at most 1 each.
        double printed = 1.5e-6;
        List<double[]> pieces = new ArrayList<>();
        LiveAngle angle =
                new LiveAngle(
                        new LiveAngle.Spec(RATE_HZ, 1, 1),
                        (fresh, start, end, turns, slope, bend) ->
                                pieces.add(new double[] {start, turns, slope, bend}));
        for (double edge : edgesS) {
            angle.edge(edge * RATE_HZ, 0);
        }
        assertEquals(2, pieces.size());
        assertEquals(0.049390, halfwayS(pieces.get(0)), printed);
        assertEquals(0.144761, halfwayS(pieces.get(1)), printed);
        // The speed at the last edge, 10 + 5 t; the edges' rounding over a turn of 93 ms.
        assertEquals(10 + 5 * edgesS[2], angle.speedHz(), 10 * 4 * printed / 0.093);
    }

    private static double halfwayS(double[] piece) {
        double speed = Math.sqrt(piece[2] * piece[2] + 4 * piece[3] * 0.5);
        return (piece[0] + 2 * 0.5 / (piece[2] + speed)) / RATE_HZ;
    }
}
