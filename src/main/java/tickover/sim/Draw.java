package tickover.sim;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Seeded draws. A branch depends on the seed and its label only, never on how much was drawn
 * before, so that adding a draw in one place leaves every other place as it was. One thread.
 */
final class Draw {
    private static final long FNV_BASIS = 0xcbf29ce484222325L;
    private static final long FNV_PRIME = 0x100000001b3L;

    private final long seed;
    private final SplittableRandom random;

    Draw(long seed) {
        this.seed = seed;
        this.random = new SplittableRandom(mix(seed));
    }

    Draw branch(String label) {
        long h = FNV_BASIS ^ seed;
        for (int i = 0; i < label.length(); i++) {
            h = (h ^ label.charAt(i)) * FNV_PRIME;
        }
        return new Draw(mix(h));
    }

    Draw branch(String label, int index) {
        return branch(label + "#" + index);
    }

    /** Finalizer of a 64-bit avalanche hash: neighbouring seeds give unrelated draws. */
    private static long mix(long z) {
        z = (z ^ (z >>> 30)) * 0xbf58476d1ce4e5b9L;
        z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
        return z ^ (z >>> 31);
    }

    double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    double logBetween(double low, double high) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    int whole(int low, int highInclusive) {
        return random.nextInt(low, highInclusive + 1);
    }

    long anyLong() {
        return random.nextLong();
    }

    boolean chance(double probability) {
        return random.nextDouble() < probability;
    }

    double gaussian() {
        return random.nextGaussian();
    }

    /** An exponentially distributed wait of the given mean. */
    double wait(double mean) {
        return -mean * Math.log1p(-random.nextDouble());
    }

    /** An amplitude ratio whose level is normally distributed around 0 dB. */
    double ratioOfDb(double sigmaDb) {
        return Math.pow(10, sigmaDb * gaussian() / 20);
    }

    <T> T pick(List<T> of) {
        return of.get(random.nextInt(of.size()));
    }

    <T> T pickWeighted(List<T> of, double... weights) {
        if (of.size() != weights.length) {
            throw new IllegalArgumentException(
                    "weights.length=" + weights.length + ", need " + of.size());
        }
        return of.get(pickWeighted(weights));
    }

    int pickWeighted(double... weights) {
        double total = 0;
        for (double w : weights) {
            total += w;
        }
        double at = total * random.nextDouble();
        for (int i = 0; i < weights.length; i++) {
            at -= weights[i];
            if (at < 0) {
                return i;
            }
        }
        return weights.length - 1;
    }

    <T> List<T> shuffled(List<T> of) {
        List<T> out = new ArrayList<>(of);
        for (int i = out.size() - 1; i > 0; i--) {
            int j = random.nextInt(i + 1);
            T kept = out.get(i);
            out.set(i, out.get(j));
            out.set(j, kept);
        }
        return out;
    }

    /** The same list with everything but its first entry in another order. */
    <T> List<T> shuffledTail(List<T> of) {
        List<T> out = new ArrayList<>(of.subList(0, 1));
        out.addAll(shuffled(of.subList(1, of.size())));
        return out;
    }
}
