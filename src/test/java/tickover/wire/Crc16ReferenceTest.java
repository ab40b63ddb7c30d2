package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class Crc16ReferenceTest {
    /** The check value that catalogues of checksums print for CRC-16/X-25. */
    @Test
    void nineDigitsGiveTheCheckValue() {
        byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
        assertEquals(0x906E, Crc16.of(digits, 0, 9));
        assertEquals(0x906E, bitByBit(digits, 0, 9));
        assertEquals(0, Crc16.of(digits, 0, 0));
    }

    /** Good final value of [RFC1662]: 0xF0B8 over data and checksum. */
    @Test
    void dataWithItsChecksumLeavesTheResidue() {
        byte[] sound = "123456789n#".getBytes(StandardCharsets.US_ASCII); // n is 0x6E
        sound[10] = (byte) 0x90;
        assertEquals(Crc16.RESIDUE, Crc16.register(sound, 0, 11));
    }

    @Test
    void eightAtATimeEqualsBitByBit() {
        long seed = 16;
        SplittableRandom random = new SplittableRandom(seed);
        byte[] bytes = new byte[300];
        random.nextBytes(bytes);
        for (int from = 0; from < 9; from++) {
            for (int count = 0; count < 290; count++) {
                assertEquals(
                        bitByBit(bytes, from, count),
                        Crc16.of(bytes, from, count),
                        "from " + from + " count " + count);
            }
        }
    }

    /** The plain twin, straight from the definition. */
    private static int bitByBit(byte[] bytes, int from, int count) {
        int r = 0xFFFF;
        for (int i = from; i < from + count; i++) {
            r ^= bytes[i] & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                r = (r & 1) != 0 ? r >>> 1 ^ 0x8408 : r >>> 1;
            }
        }
        return r ^ 0xFFFF;
    }
}
