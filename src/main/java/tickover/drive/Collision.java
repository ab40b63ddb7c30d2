package tickover.drive;

import java.util.Objects;

/**
 * Two lines of different parts that an ordinary capture cannot tell apart by order, at any speed.
 *
 * @param a name of one part
 * @param aLine kind of its line, with the number if it is a harmonic: {@code turn}, {@code firing
 *     x3}
 * @param b name of the other part
 * @param bLine kind of its line, with the number if it is a harmonic
 * @param orderA where the first stands, per crank turn
 * @param orderB where the second stands, per crank turn
 */
public record Collision(
        String a, String aLine, String b, String bLine, double orderA, double orderB) {
    public Collision {
        Objects.requireNonNull(a, "a");
        Objects.requireNonNull(aLine, "aLine");
        Objects.requireNonNull(b, "b");
        Objects.requireNonNull(bLine, "bLine");
    }

    static Collision of(LinePair pair) {
        return new Collision(
                pair.a().line().part(),
                pair.a().label(),
                pair.b().line().part(),
                pair.b().label(),
                pair.a().orders(),
                pair.b().orders());
    }
}
