// The belly network's weights as a part of the library, so that no file has to be found at run time.
    .section .rodata
    .balign 16
    .global evet_belly_weights_begin
    .global evet_belly_weights_end
evet_belly_weights_begin:
    .incbin "models/weights/belly.onnx.gz"
evet_belly_weights_end:
    .byte 0
    .section .note.GNU-stack,"",%progbits
