package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ResamplingKernelTest {
    @Test
    void threeAxesAtOnceAreEachAxisAloneToTheLastBit() {
        Random random = new Random(11);
        double[][] axes = new double[3][2000];
        for (double[] axis : axes) {
            for (int i = 0; i < axis.length; i++) {
                axis[i] = random.nextGaussian();
            }
        }
        ResamplingKernel kernel = ResamplingKernel.of(18, 106);
        double[] values = new double[3];
        for (int n = 0; n < 500; n++) {
            // Near both ends too, where the kernel is cut.
            double place = 5000 + 2000 * random.nextDouble();
            double stretch = 1 + 9 * random.nextDouble();
            kernel.atThree(axes, 5000, 2000, place, stretch, values);
            for (int a = 0; a < 3; a++) {
                assertEquals(kernel.at(axes[a], 5000, 2000, place, stretch), values[a]);
            }
        }
    }
}
