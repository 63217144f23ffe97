/* A library like any other. */
int add_two(int number);

int add_two(int number) {
    return number + 2;
}
