package pigmentbook.web;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import javax.imageio.ImageIO;

/** A photo of a piece: on its left half a neutral card of L* 50, 118.9 of 255 in sRGB (IEC 61966-2-1). */
final class PieceBesideCard {

    static final String COLOUR = "#a8541c";

    private PieceBesideCard() {}

    static byte[] png() throws IOException {
        BufferedImage photo = new BufferedImage(400, 300, BufferedImage.TYPE_INT_RGB);
        for (int x = 0; x < 400; x++) {
            for (int y = 0; y < 300; y++) {
                photo.setRGB(x, y, x < 200 ? 0x777777 : 0xA8541C);
            }
        }
        ByteArrayOutputStream png = new ByteArrayOutputStream();
        ImageIO.write(photo, "png", png);
        return png.toByteArray();
    }
}
